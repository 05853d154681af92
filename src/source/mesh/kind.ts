import { refuse } from '../../findings.ts';

export type SolidKind = 'binary STL' | 'text STL' | 'OBJ' | 'PLY' | 'binary glTF' | 'glTF';

/** Header and count of a binary STL, and the bytes of each of its triangles. */
export const STL_HEADER = 84;
export const STL_TRIANGLE = 50;

const ENDINGS: Readonly<Record<SolidKind, string>> = {
  'binary STL': 'stl',
  'text STL': 'stl',
  OBJ: 'obj',
  PLY: 'ply',
  'binary glTF': 'glb',
  glTF: 'gltf',
};

/** How files that are brought by mistake begin. */
const OTHERS: readonly (readonly [start: string, what: string])[] = [
  ['PK\u0003\u0004', 'a zip archive, as 3MF files are'],
  ['ISO-10303-21', 'a STEP file'],
  ['\u0089PNG', 'a PNG picture'],
  ['ÿØÿ', 'a JPEG picture'],
  ['II*\u0000', 'a TIFF picture'],
  ['MM\u0000*', 'a TIFF picture'],
  ['%PDF', 'a PDF document'],
  ['<', 'an XML or web document'],
  ['{', 'a JSON document'],
];

/**
 * Tell the kind of a file from its content first and its name second. Refuses what is none of the kinds, and a file
 * whose name says another kind than its content.
 */
export function kindOf(bytes: Uint8Array, file: string): SolidKind {
  const ending = /\.([a-z0-9]+)$/i.exec(file)?.[1].toLowerCase() ?? '';
  const kind = kindByContent(bytes, ending);
  if (!kind) {
    const start = latin(bytes, 64).trimStart();
    const other = OTHERS.find(([begins]) => start.startsWith(begins))?.[1];
    refuse(
      'source/other-kind',
      bytes.length === 0 ? 'The file is empty.' : `The file is ${other ?? 'not a solid that can be read'}.`,
      'Save the solid as STL, OBJ, PLY or glTF.',
      { file },
    );
  }
  const isKnownEnding = Object.values(ENDINGS).includes(ending);
  if (isKnownEnding && ENDINGS[kind] !== ending) {
    const fix = `If that is what it should be, rename it to end in .${ENDINGS[kind]}.`;
    refuse('source/other-kind', `The file is named as ${ending.toUpperCase()}, but its content is ${kind}.`, fix, {
      file,
    });
  }
  return kind;
}

function kindByContent(bytes: Uint8Array, ending: string): SolidKind | null {
  const head = latin(bytes, 65536);
  if (/^ply[\r\n]/.test(head)) return 'PLY';
  if (head.startsWith('glTF')) return 'binary glTF';
  if (bytes.length >= STL_HEADER && STL_HEADER + STL_TRIANGLE * stlCount(bytes) === bytes.length) return 'binary STL';
  const isText = isTextual(head);
  const start = head.replace(/^ï»¿/, '').trimStart();
  if (isText && start.startsWith('{') && (ending === 'gltf' || head.includes('"asset"'))) return 'glTF';
  if (isText && /^solid\b/i.test(start) && /\bfacet\b|\bendsolid\b/i.test(head)) return 'text STL';
  if (isText && (/^[ \t]*v[ \t]+[-+.\d]/m.test(head) || (ending === 'obj' && /^[#a-z]/i.test(start)))) return 'OBJ';
  // The count does not fit the length; the reader says how.
  if (
    !isText &&
    ending === 'stl' &&
    bytes.length >= STL_HEADER &&
    !OTHERS.some(([begins]) => start.startsWith(begins))
  ) {
    return 'binary STL';
  }
  return null;
}

/** How many triangles the header of a binary STL promises. */
export const stlCount = (bytes: Uint8Array): number =>
  bytes[80] + bytes[81] * 0x100 + bytes[82] * 0x10000 + bytes[83] * 0x1000000;

/** No control characters but the white ones, in all that is looked at. */
function isTextual(head: string): boolean {
  for (let i = 0; i < head.length; i++) {
    const code = head.charCodeAt(i);
    if (code < 9 || (code > 13 && code < 32)) return false;
  }
  return head.length > 0;
}

/** The first bytes, a character each. */
export function latin(bytes: Uint8Array, most: number): string {
  const pieces: string[] = [];
  for (let i = 0; i < Math.min(bytes.length, most); i += 4096) {
    pieces.push(String.fromCharCode(...bytes.subarray(i, Math.min(i + 4096, most))));
  }
  return pieces.join('');
}
