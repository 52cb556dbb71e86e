/** Numbers in a body, least byte first. */
export interface BodyReader {
  readonly u8: (at: number) => number;
  readonly u16: (at: number) => number;
  readonly u32: (at: number) => number;
  readonly i32: (at: number) => number;
}

/** @throws RangeError when read past the end; the length is checked by whoever makes a reader */
export const bodyReader = (body: Uint8Array): BodyReader => {
  const view = new DataView(body.buffer, body.byteOffset, body.byteLength);
  return {
    u8: (at) => view.getUint8(at),
    u16: (at) => view.getUint16(at, true),
    u32: (at) => view.getUint32(at, true),
    i32: (at) => view.getInt32(at, true),
  };
};
