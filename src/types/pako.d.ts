// What inflated.ts uses of pako, which ships no types.
declare module 'pako' {
  export class Inflate {
    constructor(options?: { chunkSize?: number });
    /** 0 while all is well. */
    readonly err: number;
    readonly ended: boolean;
    onData: (chunk: Uint8Array) => void;
    push(data: Uint8Array, flush?: boolean): boolean;
  }
}
