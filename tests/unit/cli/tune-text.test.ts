import { describe, expect, it } from 'vitest';
import { tunedText } from '../../../firmware-host/cli/tune-text.ts';
import { madeSearch, ORDINARY, type MadeSearch } from '../report/made-search.ts';

const textOf = (made: MadeSearch): string => {
  const { asked, found } = madeSearch(made);
  return tunedText(asked, found, 100).replaceAll(/\s+/g, ' ');
};

describe('a search of plans for a person', () => {
  it('says of a search that was stopped that not each plan was judged', () => {
    const stopped = textOf({
      choices: [{ floods: 2, minutes: 20, margins: null }],
      smallest: null,
      present: null,
      wasStopped: true,
    });
    expect(stopped).toContain('those that were judged, each in up to 5 runs');
    expect(stopped).toContain('No plan was found to be safe before the search was stopped.');
    expect(textOf(ORDINARY)).toContain('each judged in 5 runs');
  });

  it('says of which plans the channels get too warm, and of how many runs each', () => {
    expect(textOf(ORDINARY)).toContain(
      'Water in the channels above 30 °C: in 0 of 5 runs with the fewest safe floods, in 0 of 5 runs with the most shown (',
    );
  });

  it('says why fewer floods a day may begin than a plan names', () => {
    expect(textOf(ORDINARY)).toContain('one that falls due where a part ends begins in the next');
  });

  it('says of a plan that is safe by less than a point of held water that it is only just', () => {
    const says = 'Its margin is less than one point of held water in the driest run: safe, but only just.';
    const withLeast = (least: number): MadeSearch => ({
      choices: [{ floods: 3, minutes: 20, margins: [12, least, 15, 8, 10] }],
      smallest: 0,
      present: null,
    });
    expect(textOf(withLeast(0.4))).toContain(says);
    expect(textOf(withLeast(1.2))).not.toContain(says);
  });
});
