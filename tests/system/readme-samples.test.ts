import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { RIBEIRA, rillkeeper } from './rillkeeper.ts';

/** What the README shows between fences without a language: output, not commands. */
const fenced = readFileSync('README.md', 'utf8').matchAll(/^```(?<language>\w*)\n(?<body>.*?)\n```$/gms);
const paragraphs = [...fenced].flatMap(({ groups }) =>
  groups?.['language'] === '' ? groups['body']!.split('\n\n') : [],
);

const plain = await rillkeeper('rehearse', RIBEIRA);
const deadPump = await rillkeeper('rehearse', RIBEIRA, '--fault', 'pump-dead@13:00');

describe('the output that the README shows', () => {
  it('is one of a rehearsal and two of one with a dead pump', () => {
    expect(paragraphs).toHaveLength(3);
  });

  it('is what the program prints, line by line', () => {
    expect(plain.stdout).toContain(paragraphs[0]);
    expect(deadPump.stdout).toContain(paragraphs[1]);
    expect(deadPump.stdout).toContain(paragraphs[2]);
  });
});
