import { z } from 'zod';

const CONTROL = /[\p{Cc}\u2028\u2029]/u;
const ON_ONE_LINE = {
  error: 'expected a name on one line, without line breaks, tabs and other control characters',
};

/** Of one line that every terminal, message and page shows as it is. */
export const nameSchema = z
  .string()
  .trim()
  .min(1)
  .max(40)
  .refine((text) => !CONTROL.test(text), ON_ONE_LINE);

/** The same as a key, by which others ask for it: to the letter. */
export const nameKeySchema = z
  .string()
  .min(1)
  .max(40)
  .refine((text) => !CONTROL.test(text), ON_ONE_LINE);
