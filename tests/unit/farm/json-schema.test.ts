import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { farmJsonSchema } from '../../../src/farm/json-schema.ts';
import { farmSchema } from '../../../src/farm/schema.ts';

const committed = readFileSync(new URL('../../../docs/farm.schema.json', import.meta.url), 'utf8');

describe('farmJsonSchema', () => {
  it('is what docs/farm.schema.json holds, to the letter', () => {
    expect(committed).toBe(`${JSON.stringify(farmJsonSchema(), null, 2)}\n`);
  });

  it('describes what may be written: defaults are not required, boundaries are text, unknown keys refused', () => {
    expect(farmJsonSchema()).toMatchObject({
      $schema: 'https://json-schema.org/draft/2020-12/schema',
      title: 'Rillkeeper farm file',
      additionalProperties: false,
      properties: {
        dayPlan: { maxItems: 24, items: { properties: { from: { type: 'string' } } } },
        benches: { items: { properties: { slopePercent: { minimum: 0.1, maximum: 15 } } } },
        floors: { default: { stress: 0.5, wilt: 0.2 } },
      },
    });
    const { required } = farmJsonSchema() as { required: readonly string[] };
    expect(required).toContain('benches');
    expect(required).not.toContain('floors');
    expect(required).not.toContain('stretch');
  });

  it('knows every key of the farm file', () => {
    const { properties } = farmJsonSchema() as { properties: object };
    expect(Object.keys(properties)).toEqual(Object.keys(farmSchema.shape));
  });
});
