import { z } from 'zod';

/** Of one line that every terminal, message and page shows as it is. */
const onOneLine = (text: z.ZodString): z.ZodString =>
  text
    .min(1)
    .max(40)
    .refine((written) => !/[\p{Cc}\u2028\u2029]/u.test(written), {
      error: 'expected a name on one line, without line breaks, tabs and other control characters',
    });

export const nameSchema = onOneLine(z.string().trim());

/** As a key, by which others ask for it: to the letter. */
export const nameKeySchema = onOneLine(z.string());
