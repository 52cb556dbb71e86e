import { z } from 'zod';
import { farmSchema } from './schema.ts';

/**
 * The farm file as a JSON Schema (draft 2020-12), for editors that complete keys and mark slips while typing.
 * It says what may be written, before defaults and transforms. It knows single values only; whether they
 * agree with one another is for the parser to say.
 */
export const farmJsonSchema = (): object => {
  const { $schema, ...rest } = z.toJSONSchema(farmSchema, { io: 'input', unrepresentable: 'any' });
  return {
    $schema,
    title: 'Rillkeeper farm file',
    description: 'One loop of tank, pump and benches, its day plan, and what watches over it.',
    ...rest,
  };
};
