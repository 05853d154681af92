/** The few things that geometry/clip.ts uses, as they really are (the published types list what does not exist). */
declare module 'clipper-lib' {
  export interface IntPoint {
    X: number;
    Y: number;
  }
  export type Path = IntPoint[];
  export interface PolyNode {
    Contour(): Path;
    Childs(): PolyNode[];
    IsHole(): boolean;
  }
  interface ClipperLibrary {
    Clipper: {
      new (
        options?: number,
      ): {
        AddPaths(paths: Path[], type: number, closed: boolean): boolean;
        Execute(clip: number, solution: Path[] | PolyNode, subjectFill: number, clipFill: number): boolean;
      };
      OpenPathsFromPolyTree(tree: PolyNode): Path[];
    };
    ClipperOffset: {
      new (
        miterLimit?: number,
        arcTolerance?: number,
      ): {
        AddPaths(paths: Path[], joins: number, ends: number): void;
        Execute(solution: Path[] | PolyNode, delta: number): void;
      };
    };
    PolyTree: new () => PolyNode;
    ClipType: { ctIntersection: number; ctUnion: number; ctDifference: number; ctXor: number };
    PolyType: { ptSubject: number; ptClip: number };
    PolyFillType: { pftEvenOdd: number; pftNonZero: number; pftPositive: number; pftNegative: number };
    JoinType: { jtSquare: number; jtRound: number; jtMiter: number };
    EndType: { etClosedPolygon: number; etOpenRound: number; etOpenButt: number };
    Error: (message: string) => void;
  }
  const library: ClipperLibrary;
  export default library;
}
