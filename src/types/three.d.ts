/** The few things of three and three-mesh-bvh that are used, without the language library of a page. */
declare module 'three' {
  export class BufferAttribute {
    constructor(array: Float32Array | Uint32Array, itemSize: number);
    readonly array: Float32Array | Float64Array | Uint32Array | Uint16Array | Int32Array;
  }
  export class BufferGeometry {
    readonly index: BufferAttribute | null;
    getAttribute(name: string): BufferAttribute | undefined;
    setAttribute(name: string, attribute: BufferAttribute): this;
    setIndex(index: BufferAttribute): this;
  }
  export class Vector3 {
    constructor(x?: number, y?: number, z?: number);
    x: number;
    y: number;
    z: number;
    fromArray(array: ArrayLike<number>, at: number): this;
    distanceTo(other: Vector3): number;
  }
  export class Matrix4 {}
  export class Line3 {
    readonly start: Vector3;
    readonly end: Vector3;
  }
}
declare module 'three/addons/loaders/STLLoader.js' {
  import type { BufferGeometry } from 'three';
  export class STLLoader {
    parse(data: ArrayBuffer | string): BufferGeometry;
  }
}
declare module 'three-mesh-bvh' {
  import type { BufferGeometry, Line3, Matrix4, Vector3 } from 'three';
  export class ExtendedTriangle {
    readonly a: Vector3;
    readonly b: Vector3;
    readonly c: Vector3;
    needsUpdate: boolean;
    intersectsTriangle(other: ExtendedTriangle, target: Line3, suppressLog: boolean): boolean;
  }
  export class MeshBVH {
    constructor(geometry: BufferGeometry, options: { indirect: boolean; verbose: boolean });
    resolveTriangleIndex(i: number): number;
    closestPointToPoint(point: Vector3): { readonly distance: number } | null;
    /** Every pair of leaves whose boxes meet; the callback answers true to stop. */
    bvhcast(
      other: MeshBVH,
      toLocal: Matrix4,
      callbacks: { intersectsRanges(start: number, count: number, otherStart: number, otherCount: number): boolean },
    ): boolean;
  }
}
