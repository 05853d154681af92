/** As much of JSTS as tests use: its modules come without types. */
declare module 'jsts/org/locationtech/jts/geom/Coordinate.js' {
  export default class Coordinate {
    constructor(x: number, y: number);
  }
}
declare module 'jsts/org/locationtech/jts/geom/GeometryFactory.js' {
  import type Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
  export interface Geometry {
    getArea(): number;
  }
  export default class GeometryFactory {
    createLinearRing(points: readonly Coordinate[]): Geometry;
    createPolygon(shell: Geometry, holes: readonly Geometry[]): Geometry;
  }
}
declare module 'jsts/org/locationtech/jts/operation/distance/DistanceOp.js' {
  import type { Geometry } from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';

  const operation: { distance(a: Geometry, b: Geometry): number };
  export default operation;
}
