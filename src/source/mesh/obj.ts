import { addFace } from './face.ts';
import { refuseCount, refuseDamaged, type Soup, textOf } from './soup.ts';

/** First words of lines that say nothing about the surface: names, groups, materials, textures, normals, lines, points. */
const LEFT_OUT = new Set([
  ...['vt', 'vn', 'vp', 'g', 'o', 's', 'l', 'p', 'mg', 'usemtl', 'mtllib', 'usemap', 'maplib'],
  ...['bevel', 'c_interp', 'd_interp', 'lod', 'shadow_obj', 'trace_obj'],
]);

/**
 * Read an OBJ: its `v` and `f` lines. Faces of more than three corners are divided where they bend.
 * Read here and not by three's loader, which keeps seven digits (points near a northing of 5,200,000 m move by half a
 * metre), takes any line for a face that starts with f, and makes a fan of every face, bent inward or not.
 */
export function readObj(bytes: Uint8Array, file: string): Soup {
  const points: number[] = [];
  const corners: number[] = [];
  // A face may name points that are listed after it, so the largest is held against their count at the end.
  let largest = 0;
  let largestLine = 0;
  const text = textOf(bytes, file);
  let number = 0;
  for (let at = 0; at < text.length; ) {
    let end = text.indexOf('\n', at);
    if (end < 0) end = text.length;
    let line = text.slice(at, end);
    at = end + 1;
    number++;
    const start = number;
    // A backslash at the end carries a line on.
    while (/\\\s*$/.test(line) && at < text.length) {
      end = text.indexOf('\n', at);
      if (end < 0) end = text.length;
      line = line.replace(/\\\s*$/, ' ') + text.slice(at, end);
      at = end + 1;
      number++;
    }
    const words = line.trim().split(/\s+/);
    const word = words[0];
    if (word === 'v') {
      for (let axis = 1; axis <= 3; axis++) {
        const value = words[axis] === undefined ? Number.NaN : Number(words[axis]);
        if (!Number.isFinite(value)) refuseDamaged(file, 'a point is not three numbers', start);
        points.push(value);
      }
    } else if (word === 'f') {
      const face = words.slice(1).map((corner) => cornerOf(corner, points.length / 3));
      if (face.length < 3 || face.some((corner) => corner < 0)) refuseDamaged(file, 'a face cannot be read', start);
      for (const corner of face) {
        if (corner <= largest) continue;
        largest = corner;
        largestLine = start;
      }
      addFace(face, points, corners);
      refuseCount(file, corners.length / 3);
    } else if (word !== '' && !word.startsWith('#') && !LEFT_OUT.has(word)) {
      refuseDamaged(file, `a line begins with "${word.slice(0, 20)}"`, start);
    }
  }
  refuseCount(file, corners.length / 3);
  if (3 * largest + 3 > points.length) refuseDamaged(file, 'a face names a point that is not there', largestLine);
  return { points: Float64Array.from(points), corners: Uint32Array.from(corners) };
}

/** `7`, `7/2`, `7//3` or `-1` (the last point so far): the point's number from 0; −1 when it cannot be read. */
function cornerOf(word: string, known: number): number {
  const match = /^(-?\d{1,9})(?:\/\d*|\/-\d+){0,2}$/.exec(word);
  if (!match) return -1;
  const index = Number(match[1]);
  return index > 0 ? index - 1 : index < 0 ? Math.max(-1, known + index) : -1;
}
