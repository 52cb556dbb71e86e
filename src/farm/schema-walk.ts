import { z } from 'zod';

const bare = (schema: unknown): unknown =>
  schema instanceof z.ZodDefault || schema instanceof z.ZodOptional ? bare(schema.unwrap()) : schema;

/** What may stand here with keys or places of its own; a union may offer several (`topUp: by-hand`, or its keys). */
const blocksOf = (schema: unknown): readonly unknown[] => {
  const inner = bare(schema);
  return inner instanceof z.ZodUnion
    ? inner.options.map(bare).filter((option) => option instanceof z.ZodObject)
    : [inner];
};

const under = (block: unknown, step: PropertyKey): unknown => {
  if (block instanceof z.ZodObject) {
    const key = String(step);
    return Object.hasOwn(block.shape, key) ? block.shape[key] : undefined;
  }
  if (block instanceof z.ZodArray) return block.element;
  if (block instanceof z.ZodTuple) return block.def.items[Number(step)];
  return block instanceof z.ZodRecord ? block.valueType : undefined;
};

/** The part of the schema that judges the value at `path`, or undefined where it knows none. */
export const schemaAt = (schema: unknown, path: readonly PropertyKey[]): unknown => {
  const [step, ...rest] = path;
  if (step === undefined) return schema;
  const next = blocksOf(schema)
    .map((block) => under(block, step))
    .find((found) => found !== undefined);
  return next === undefined ? undefined : schemaAt(next, rest);
};

/** The keys that the schema knows at `path`. */
export const keysKnownAt = (schema: unknown, path: readonly PropertyKey[]): readonly string[] => [
  ...new Set(
    blocksOf(schemaAt(schema, path)).flatMap((block) =>
      block instanceof z.ZodObject ? Object.keys(block.shape) : [],
    ),
  ),
];

/** The value at `path` in what was read, or undefined. */
export const valueAt = (raw: unknown, path: readonly PropertyKey[]): unknown => {
  const [step, ...rest] = path;
  if (step === undefined) return raw;
  if (typeof raw !== 'object' || raw === null || !Object.hasOwn(raw, step)) return undefined;
  return valueAt(Reflect.get(raw, step), rest);
};
