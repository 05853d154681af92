/** What every engine has and the language's own library does not declare. Nothing of Node, nothing of a page. */
declare class TextDecoder {
  constructor(label?: string, options?: { fatal?: boolean; ignoreBOM?: boolean });
  decode(input?: ArrayBufferView | ArrayBuffer): string;
}
declare class TextEncoder {
  encode(input?: string): Uint8Array;
}
declare function structuredClone<T>(value: T, options?: { transfer?: ArrayBuffer[] }): T;
