/** Flags of SREG: C 1, Z 2, N 4, V 8, S 16, H 32. */

/** N, Z, V and S by a result of eight bits, and 256 more when it has overflowed. */
export const FLAGS_OF = Uint8Array.from({ length: 512 }, (_, index) => {
  const negative = (index & 0x80) !== 0;
  const overflows = index > 0xff;
  const zero = (index & 0xff) === 0 ? 2 : 0;
  return zero | (negative ? 4 : 0) | (overflows ? 8 : 0) | (negative === overflows ? 0 : 16);
});

const at = (cells: Uint8Array, index: number): number => cells[index] ?? 0;
/** C, Z, N, V, S and H of `x ± y`, by the carries into each bit (AVR instruction set manual, ADD and SUB). */
export const sumFlags = (carries: number, sum: number): number =>
  at(FLAGS_OF, (sum & 0xff) | (((carries << 1) ^ carries) & 0x100)) |
  ((carries & 0x10) << 1) |
  ((carries >> 8) & 1);
/** C, Z, N, V and S of a result of sixteen bits; bit 15 of the others tells overflow and carry. */
export const wordFlags = (result: number, overflow: number, carry: number): number =>
  at(FLAGS_OF, (result >> 8) | ((result & 0xff) === 0 ? 0 : 1) | ((overflow >> 7) & 0x100)) |
  ((carry >> 15) & 1);
