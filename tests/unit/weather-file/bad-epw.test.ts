import { describe, expect, it } from 'vitest';
import { readEpwText } from '../../../firmware-host/weather-file/epw.ts';
import {
  epwHeader,
  epwRow,
  epwText,
  FIRST_ROW_LINE,
  INVENTED_SITE,
  madeHours,
} from '../../support/made-epw.ts';
import { FARM_PLACE, problemTextsOf } from './support.ts';

const hours = madeHours('2023-07-14', 3);
/** The 30th row is 06 h of 15 July and stands on line 38. */
const PLACE = 29;
const LINE = FIRST_ROW_LINE + PLACE;

/** What is told when fields of that row are changed; fields count from 1, as in the data dictionary. */
const told = (changed: Readonly<Record<number, string | number>>): readonly string[] =>
  problemTextsOf(
    readEpwText(
      epwText(hours.map((hour, place) => epwRow(hour, place === PLACE ? changed : {}))),
      FARM_PLACE,
    ),
  );
const toldOfRows = (rows: readonly string[], header = epwHeader()): readonly string[] =>
  problemTextsOf(readEpwText(epwText(rows, header), FARM_PLACE));

describe('a field of an EPW row', () => {
  const HOLD = 'or 99.9 for nothing measured. If nothing was measured, write 99.9.';
  it.each([
    [{ 7: -61 }, `dry bulb temperature (field 7): found -61 °C; allowed: -60 to 60 °C, ${HOLD}`],
    [{ 7: 61 }, `dry bulb temperature (field 7): found 61 °C; allowed: -60 to 60 °C, ${HOLD}`],
    [{ 7: 'mild' }, 'dry bulb temperature (field 7): found "mild"; allowed: -60 to 60 °C'],
    [{ 8: -71 }, 'dew point temperature (field 8): found -71 °C; allowed: -70 to 60 °C'],
    [{ 9: 111 }, 'relative humidity (field 9): found 111 %; allowed: 0 to 110 %'],
    [{ 9: -1 }, 'relative humidity (field 9): found -1 %; allowed: 0 to 110 %'],
    [{ 10: 990 }, 'station pressure (field 10): found 990 Pa; allowed: 31000 to 120000 Pa'],
    [{ 14: 1501 }, 'global horizontal radiation (field 14): found 1501 Wh/m²; allowed: 0 to 1500 Wh/m²'],
    [{ 14: -5 }, 'global horizontal radiation (field 14): found -5 Wh/m²; allowed: 0 to 1500 Wh/m²'],
    [{ 22: 76 }, 'wind speed (field 22): found 76 m/s; allowed: 0 to 75 m/s'],
    [{ 1: 23 }, 'year (field 1): found "23"; allowed: a whole number from 1800 to 2200'],
    [{ 2: 13 }, 'month (field 2): found "13"; allowed: a whole number from 1 to 12'],
    [{ 3: 32 }, 'day (field 3): found "32"; allowed: a whole number from 1 to 31'],
    [{ 2: 6, 3: 31 }, 'day (field 3): found "31"; allowed: a day of month 6, 1 to 30'],
    [{ 4: 0 }, 'hour (field 4): found "0"; allowed: a whole number from 1 to 24'],
    [{ 4: 25 }, 'hour (field 4): found "25"; allowed: a whole number from 1 to 24'],
    [{ 5: 30 }, 'minute (field 5): found "30"; allowed: 0 or 60, for the whole hour'],
  ])('%j is told with line and name', (changed, says) => {
    expect(told(changed)[0]).toContain(`line ${LINE}, column ${says}`);
  });

  it('that leaps by 21 °C from the hour before is told', () => {
    expect(told({ 7: 41 })[0]).toMatch(
      new RegExp(`^line ${LINE}, column dry bulb temperature \\(field 7\\): found a jump of 21\\.0 °C`),
    );
  });
});

describe('rows of an EPW file', () => {
  const rows = hours.map((hour) => epwRow(hour));

  it('of 34 fields are told', () => {
    const cut = rows.map((row, place) => (place === PLACE ? row.slice(0, row.lastIndexOf(',')) : row));
    expect(toldOfRows(cut)).toEqual([
      `line ${LINE}: found 34 fields; allowed: 35 fields. Look for a comma too many or too few, or for a row cut short.`,
    ]);
  });

  it('that come twice are told with the line above', () => {
    expect(toldOfRows(rows.toSpliced(PLACE, 0, rows[PLACE - 1]!))).toEqual([
      `line ${LINE}, column year to hour (fields 1 to 4): found 2023-07-15 05:00, the same time as line ${LINE - 1}; ` +
        'allowed: a time after 2023-07-15 05:00. Rows must rise from January to December, one for each hour.',
    ]);
  });

  it('that leave out four hours are told with both ends, and three are bridged', () => {
    expect(toldOfRows(rows.toSpliced(PLACE, 3))[0]).toContain(
      `line ${LINE}, column year to hour (fields 1 to 4): found a hole of 4 h, from 2023-07-15 05:00 to 2023-07-15 09:00`,
    );
    expect(readEpwText(epwText(rows.toSpliced(PLACE, 2)), FARM_PLACE).ok).toBe(true);
  });

  it('without any sun are refused: plants would hardly drink, and every plan pass', () => {
    expect(toldOfRows(hours.map((hour) => epwRow(hour, { 14: 0 })))).toEqual([
      expect.stringContaining('global horizontal radiation (field 14): found no sun in any row'),
    ]);
  });

  it('fewer than 24 are refused', () => {
    expect(toldOfRows(rows.slice(0, 23))[0]).toContain('found 23 rows with a temperature');
    expect(toldOfRows([])[0]).toContain('found 0 rows with a temperature');
  });
});

describe('the header of an EPW file', () => {
  const rows = hours.map((hour) => epwRow(hour));

  it('with a latitude of 91, a longitude of 181, no zone and a word for its elevation is told all four', () => {
    const [, ...rest] = epwHeader();
    expect(toldOfRows(rows, ['LOCATION,X,-,-,invented,0,91,181,,low', ...rest])).toEqual([
      expect.stringContaining(
        'line 1, column latitude (LOCATION, field 7): found "91"; allowed: a number from -90 to 90',
      ),
      expect.stringContaining('longitude (LOCATION, field 8): found "181"'),
      expect.stringContaining(
        'time zone (LOCATION, field 9): found nothing; allowed: a number from -12 to 14',
      ),
      expect.stringContaining('elevation (LOCATION, field 10): found "low"'),
    ]);
  });

  it('without DATA PERIODS, or with four records an hour, is told', () => {
    expect(toldOfRows(rows, epwHeader().slice(0, 7))[0]).toContain('found no line DATA PERIODS');
    expect(toldOfRows(rows, epwHeader(INVENTED_SITE, 4))).toEqual([
      'line 8, column records per hour (DATA PERIODS, field 3): found "4"; allowed: 1. Take an hourly file of the same site.',
    ]);
  });

  it('puts no escape sequence of its site on a terminal', () => {
    const site = { ...INVENTED_SITE, name: '\u001b[31mRed\u0007' };
    const reading = readEpwText(epwText(rows, epwHeader(site)), FARM_PLACE);
    expect(reading.ok && reading.notes[0]).toContain('of 31mRed,');
  });
});
