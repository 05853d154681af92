import { BOX, CAPITAL, FACE, type Glyph } from '../lettering.ts';
import { MISSING } from '../letters.ts';
import type { Ref, Writer } from './writer.ts';

/** Codes of characters: Latin-1 has its own; the few others take what is free there (128 to 159). The open box is the last. */
const OTHERS = [...FACE.keys()].filter((character) => character > '\u00FF').concat(MISSING);
const codeOf = (character: string): number =>
  character <= '\u00FF' ? character.charCodeAt(0) : 128 + OTHERS.indexOf(character);

const GLYPHS: readonly (readonly [code: number, character: string, glyph: Glyph])[] = [...FACE, [MISSING, BOX] as const]
  .map(([character, glyph]) => [codeOf(character), character, glyph] as const)
  .sort((a, b) => a[0] - b[0]);

/** A writable text as a string of the file, in the codes of the face. */
export const literal = (text: string): string =>
  `(${[...text].map((character) => String.fromCharCode(codeOf(character)).replace(/[()\\]/, '\\$&')).join('')})`;

/**
 * Embed the face of single strokes: a Type 3 font, whose glyphs are drawn by operators (ISO 32000-2, 9.6.4). So lettering stays
 * strokes in the file. Size 1 has capitals of height 1, and strokes of a tenth.
 */
export function strokeFace(pdf: Writer): Ref {
  const procedures: Record<string, Ref> = {};
  for (const [code, , glyph] of GLYPHS) {
    const procedure = pdf.ref({});
    procedure.end(procedureOf(glyph));
    procedures[nameOf(code)] = procedure;
  }
  const [first, last] = [GLYPHS[0][0], GLYPHS[GLYPHS.length - 1][0]];
  const advances = new Map(GLYPHS.map(([code, , { advance }]) => [code, advance]));
  const unicode = pdf.ref({});
  unicode.end(unicodeMap());
  const font = pdf.ref({
    Type: 'Font',
    Subtype: 'Type3',
    Name: 'L',
    FontBBox: [-100, -300, 1100, 1000],
    FontMatrix: [1 / CAPITAL, 0, 0, 1 / CAPITAL, 0, 0],
    FirstChar: first,
    LastChar: last,
    Widths: Array.from({ length: last - first + 1 }, (_, i) => advances.get(first + i) ?? 0),
    Encoding: { Type: 'Encoding', Differences: GLYPHS.flatMap(([code]) => [code, nameOf(code)]) },
    CharProcs: procedures,
    Resources: {},
    ToUnicode: unicode,
  });
  font.end();
  return font;
}

const nameOf = (code: number): string => `g${code}`;

function procedureOf({ advance, strokes }: Glyph): string {
  const paths = strokes.map((stroke) => {
    let path = `${stroke[0]} ${stroke[1]} m`;
    for (let i = 2; i < stroke.length; i += 2) path += ` ${stroke[i]} ${stroke[i + 1]} l`;
    return path;
  });
  const pen = `${CAPITAL / 10} w 1 J 1 j [] 0 d`;
  return [`${advance} 0 d0`, ...(paths.length > 0 ? [pen, ...paths, 'S'] : [])].join('\n');
}

/** What each code says, for those who search or copy (ISO 32000-2, 9.10.3). */
function unicodeMap(): string {
  const rows = GLYPHS.map(([code, character]) => `<${hex(code, 2)}> <${hex(character.charCodeAt(0), 4)}>`);
  const blocks: string[] = [];
  // No more than a hundred in a block.
  for (let i = 0; i < rows.length; i += 100) {
    const block = rows.slice(i, i + 100);
    blocks.push(`${block.length} beginbfchar`, ...block, 'endbfchar');
  }
  return `/CIDInit /ProcSet findresource begin
12 dict begin
begincmap
/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def
/CMapName /Adobe-Identity-UCS def
/CMapType 2 def
1 begincodespacerange
<00> <FF>
endcodespacerange
${blocks.join('\n')}
endcmap
CMapName currentdict /CMap defineresource pop
end
end`;
}

const hex = (value: number, digits: number): string => value.toString(16).toUpperCase().padStart(digits, '0');
