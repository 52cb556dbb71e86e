const NUMBER = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d{1,3})?$/i;
const COMMA_NUMBER = /^[+-]?\d+,\d+$/;

export type Cell =
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'empty' }
  | { readonly kind: 'not-a-number'; readonly remedy: string };

/** The number in a cell. A decimal comma is read only where a semicolon parts the cells. */
export const readCell = (text: string, decimalComma: boolean): Cell => {
  if (text === '') return { kind: 'empty' };
  const isComma = COMMA_NUMBER.test(text);
  if (isComma && !decimalComma) {
    return { kind: 'not-a-number', remedy: `Write ${text.replace(',', '.')}, with a decimal point.` };
  }
  const written = isComma ? text.replace(',', '.') : text;
  const value = NUMBER.test(written) ? Number(written) : NaN;
  if (Number.isFinite(value)) return { kind: 'number', value };
  return { kind: 'not-a-number', remedy: 'Write the number without its unit, or leave the cell empty.' };
};
