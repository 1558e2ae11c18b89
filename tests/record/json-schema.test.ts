import { expect, it } from 'vitest';
import { recordJsonSchema } from '../../src/record/json-schema.ts';

it('the JSON Schema says what a file may hold', () => {
  const schema = recordJsonSchema() as {
    required: string[];
    additionalProperties: boolean;
    properties: { instrument: { required: string[] }; known: { anyOf: { type: string }[] } };
  };
  expect(schema.required).toEqual(['whichgas', 'instrument']);
  expect(schema.additionalProperties).toBe(false);
  expect(schema.properties.instrument.required).toEqual(['method', 'leastCount']);
  expect(schema.properties.known.anyOf.map(({ type }) => type)).toEqual(['object', 'array']);
});

it('the JSON Schema wants one of the two ways to name a place where nothing was seen', () => {
  const text = JSON.stringify(recordJsonSchema());
  expect(text).toContain('"oneOf":[{"required":["reading"]},{"required":["wavelengthNm"]}]');
});
