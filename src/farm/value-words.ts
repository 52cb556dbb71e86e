import { z } from 'zod';

const QUOTED_LETTERS_MAX = 60;

/** What stands in the file, in a few words. */
export const foundWords = (value: unknown): string => {
  if (value === undefined) return 'nothing';
  if (value === null) return 'an empty value';
  if (typeof value === 'string') {
    const cut = value.length > QUOTED_LETTERS_MAX ? `${value.slice(0, QUOTED_LETTERS_MAX)}…` : value;
    return JSON.stringify(cut);
  }
  if (typeof value === 'number') return Number.isNaN(value) ? 'not a number (NaN)' : String(value);
  if (typeof value === 'boolean' || typeof value === 'bigint') return String(value);
  if (Array.isArray(value)) return value.length === 0 ? 'an empty list' : `a list of ${value.length}`;
  return typeof value === 'object' ? 'a block of keys' : `a ${typeof value}`;
};

/** `a, b or c` */
export const eitherOf = (words: readonly string[]): string => {
  const last = words.at(-1) ?? 'nothing';
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} or ${last}`;
};

const rangeWords = (least: number | null, most: number | null, unit: string): string => {
  const after = unit === '' ? '' : ` ${unit}`;
  if (least !== null && most !== null) return `${least} to ${most}${after}`;
  if (least !== null) return `at least ${least}${after}`;
  return most === null ? `any number${after}` : `at most ${most}${after}`;
};

const numberWords = (schema: z.ZodNumber): string => {
  const range = rangeWords(schema.minValue, schema.maxValue, '');
  return schema.format === null ? range : `a whole number, ${range}`;
};

const listWords = (schema: z.ZodArray): string => {
  const { minItems, maxItems } = z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any' });
  return `a list of ${rangeWords(minItems ?? null, maxItems ?? null, 'entries')}`;
};

/** The range of a number that has both ends, or null. */
export const numberBounds = (schema: unknown): { readonly least: number; readonly most: number } | null => {
  if (schema instanceof z.ZodDefault || schema instanceof z.ZodOptional) return numberBounds(schema.unwrap());
  if (!(schema instanceof z.ZodNumber) || schema.minValue === null || schema.maxValue === null) return null;
  return { least: schema.minValue, most: schema.maxValue };
};

/** What the schema allows, in a few words. */
export const allowedWords = (schema: unknown): string => {
  if (schema instanceof z.ZodDefault || schema instanceof z.ZodOptional) return allowedWords(schema.unwrap());
  if (schema instanceof z.ZodNumber) return numberWords(schema);
  if (schema instanceof z.ZodBoolean) return 'true or false';
  if (schema instanceof z.ZodEnum) return eitherOf(schema.options.map(String));
  if (schema instanceof z.ZodLiteral) return eitherOf([...schema.values].map(String));
  if (schema instanceof z.ZodArray) return listWords(schema);
  if (schema instanceof z.ZodTuple) return `a list of ${schema.def.items.length} entries`;
  if (schema instanceof z.ZodUnion) return eitherOf(schema.options.map(allowedWords));
  if (schema instanceof z.ZodObject) return `a block with ${Object.keys(schema.shape).join(', ')}`;
  if (schema instanceof z.ZodRecord) return 'a block of names, each with its own keys';
  if (schema instanceof z.ZodType && schema.description !== undefined) return schema.description;
  if (!(schema instanceof z.ZodString)) return 'another value';
  const { minLength, maxLength } = schema;
  return minLength === null && maxLength === null
    ? 'a text'
    : `a text of ${rangeWords(minLength, maxLength, 'letters')}`;
};
