import { z } from 'zod';

const bare = (schema: unknown): unknown =>
  schema instanceof z.ZodDefault || schema instanceof z.ZodOptional ? bare(schema.unwrap()) : schema;

/** The block that a value may also be, where a word would do as well (`topUp: by-hand`, or its keys). */
const blockOf = (schema: unknown): unknown => {
  const inner = bare(schema);
  return inner instanceof z.ZodUnion
    ? inner.options.map(bare).find((option) => option instanceof z.ZodObject)
    : inner;
};

/** The part of the schema that judges the value at `path`, or undefined where it knows none. */
export const schemaAt = (schema: unknown, path: readonly PropertyKey[]): unknown => {
  const [step, ...rest] = path;
  if (step === undefined) return schema;
  const block = blockOf(schema);
  if (block instanceof z.ZodObject) {
    const key = String(step);
    return Object.hasOwn(block.shape, key) ? schemaAt(block.shape[key], rest) : undefined;
  }
  if (block instanceof z.ZodArray) return schemaAt(block.element, rest);
  if (block instanceof z.ZodRecord) return schemaAt(block.valueType, rest);
  return undefined;
};

/** The keys that the schema knows at `path`. */
export const keysKnownAt = (schema: unknown, path: readonly PropertyKey[]): readonly string[] => {
  const block = blockOf(schemaAt(schema, path));
  return block instanceof z.ZodObject ? Object.keys(block.shape) : [];
};

/** The value at `path` in what was read, or undefined. */
export const valueAt = (raw: unknown, path: readonly PropertyKey[]): unknown => {
  const [step, ...rest] = path;
  if (step === undefined) return raw;
  if (typeof raw !== 'object' || raw === null || !Object.hasOwn(raw, step)) return undefined;
  return valueAt(Reflect.get(raw, step), rest);
};
