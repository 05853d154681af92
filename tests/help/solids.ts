import type { Heightfield, Solid } from '../../src/model/landform.ts';

type Vertex = readonly [number, number, number];

/** A solid from vertices and faces (counter-clockwise seen from outside; those of more than three corners are convex). */
export function solid(vertices: readonly Vertex[], faces: readonly (readonly number[])[]): Solid {
  const triangles = faces.flatMap((face) => face.slice(2).flatMap((_, i) => [face[0], face[i + 1], face[i + 2]]));
  return {
    kind: 'solid',
    positionsMm: Float64Array.from(vertices.flat()),
    triangles: Uint32Array.from(triangles),
    footprint: null,
  };
}

/** Several solids as one, as shells of it. */
export function together(...solids: readonly Solid[]): Solid {
  const positions: number[] = [];
  const triangles: number[] = [];
  for (const each of solids) {
    const base = positions.length / 3;
    for (const value of each.positionsMm) positions.push(value);
    for (const v of each.triangles) triangles.push(base + v);
  }
  return {
    kind: 'solid',
    positionsMm: Float64Array.from(positions),
    triangles: Uint32Array.from(triangles),
    footprint: null,
  };
}

/** The same surface inside out: a cavity. */
export const insideOut = (of: Solid): Solid => ({ ...of, triangles: of.triangles.slice().reverse() });

/** The same solid with every vertex put elsewhere. */
export function mapped(of: Solid, move: (x: number, y: number, z: number) => Vertex): Solid {
  const positionsMm = of.positionsMm.slice();
  for (let i = 0; i < positionsMm.length; i += 3) {
    positionsMm.set(move(positionsMm[i], positionsMm[i + 1], positionsMm[i + 2]), i);
  }
  return { ...of, positionsMm };
}

/** An upright prism over a counter-clockwise convex outline. */
export function prism(outline: readonly (readonly [number, number])[], low: number, high: number): Solid {
  const n = outline.length;
  const at = (i: number) => i % n;
  return solid(
    [...outline.map(([x, y]): Vertex => [x, y, low]), ...outline.map(([x, y]): Vertex => [x, y, high])],
    [
      outline.map((_, i) => n - 1 - i),
      outline.map((_, i) => n + i),
      ...outline.map((_, i) => [i, at(i + 1), n + at(i + 1), n + i]),
    ],
  );
}

/**
 * A profile of [radius, z] turned about an upright axis in `sides` steps. From axis to axis when it starts and ends at
 * radius 0, else closed on itself. It runs so that the material is on its left: up on the outside.
 */
export function turned(profile: readonly (readonly [number, number])[], sides: number, x: number, y: number): Solid {
  const vertices: Vertex[] = [];
  const rows = profile.map(([radius, z]) => {
    const start = vertices.length;
    const count = radius === 0 ? 1 : sides;
    for (let i = 0; i < count; i++) {
      const turn = (2 * Math.PI * i) / sides;
      vertices.push([x + radius * Math.cos(turn), y + radius * Math.sin(turn), z]);
    }
    return (i: number) => start + (i % count);
  });
  const isOpen = profile[0][0] === 0;
  const faces: number[][] = [];
  for (let k = 0; k + (isOpen ? 1 : 0) < rows.length; k++) {
    const lower = rows[k];
    const upper = rows[(k + 1) % rows.length];
    for (let i = 0; i < sides; i++) {
      if (lower(i) !== lower(i + 1)) faces.push([lower(i), lower(i + 1), upper(i)]);
      if (upper(i) !== upper(i + 1)) faces.push([lower(i + 1), upper(i + 1), upper(i)]);
    }
  }
  return solid(vertices, faces);
}

/** Area of a regular polygon by the radius of its corners. */
export const polygonArea = (radius: number, sides: number): number =>
  (sides / 2) * radius * radius * Math.sin((2 * Math.PI) / sides);

/** A heightfield as a solid: four triangles a cell that meet at the mean, walls, and a flat base at z = 0. */
export function fieldSolid({ columns, rows, stepXMm, stepYMm, heightsMm }: Heightfield): Solid {
  const vertices: Vertex[] = [];
  const faces: number[][] = [];
  const top = (c: number, r: number) => r * columns + c;
  for (let r = 0; r < rows; r++) {
    for (let c = 0; c < columns; c++) vertices.push([c * stepXMm, r * stepYMm, heightsMm[top(c, r)]]);
  }
  for (let r = 0; r + 1 < rows; r++) {
    for (let c = 0; c + 1 < columns; c++) {
      const around = [top(c, r), top(c + 1, r), top(c + 1, r + 1), top(c, r + 1)];
      const mean = around.reduce((sum, v) => sum + heightsMm[v], 0) / 4;
      vertices.push([(c + 0.5) * stepXMm, (r + 0.5) * stepYMm, mean]);
      faces.push(...around.map((v, i) => [v, around[(i + 1) % 4], vertices.length - 1]));
    }
  }
  const rim: number[] = [];
  for (let c = 0; c + 1 < columns; c++) rim.push(top(c, 0));
  for (let r = 0; r + 1 < rows; r++) rim.push(top(columns - 1, r));
  for (let c = columns - 1; c > 0; c--) rim.push(top(c, rows - 1));
  for (let r = rows - 1; r > 0; r--) rim.push(top(0, r));
  const base = vertices.length;
  for (const v of rim) vertices.push([vertices[v][0], vertices[v][1], 0]);
  rim.forEach((v, i) => {
    const next = (i + 1) % rim.length;
    faces.push([base + i, base + next, rim[next], v]);
  });
  // The base is a fan from its own middle: the rim's corners are in line, and a fan from one of them has flat triangles.
  vertices.push([((columns - 1) * stepXMm) / 2, ((rows - 1) * stepYMm) / 2, 0]);
  faces.push(...rim.map((_, i) => [base + ((i + 1) % rim.length), base + i, vertices.length - 1]));
  return solid(vertices, faces);
}

/** A stem that narrows upward, 9 in radius at z = 26, under a cap that reaches out to 34 at z = 47; 29 sides. */
export const MUSHROOM = turned(
  [
    [0, 0],
    [12, 0],
    [9, 26],
    [31, 33],
    [34, 47],
    [0, 58],
  ],
  29,
  37,
  41,
);
