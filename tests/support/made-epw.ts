/** An invented site for invented weather; nothing here was ever measured. */
export interface MadeSite {
  readonly name: string;
  readonly latitude: number;
  readonly longitude: number;
  readonly zone: number;
  readonly elevation: number;
}

export const INVENTED_SITE: MadeSite = {
  name: 'Invented Hillside',
  latitude: 37.1,
  longitude: -8,
  zone: 0,
  elevation: 180,
};

const HOUR = 3_600_000;

/** One hour of the file; a changed field stands at its place, 1 first, as the data dictionary counts. */
export interface MadeHour {
  readonly year: number;
  readonly month: number;
  readonly day: number;
  /** 1 to 24. */
  readonly hour: number;
}

/** Coldest at five, warmest at five in the afternoon; 20 to 30 °C. */
export const madeCelsius = (hour: number): number => 25 - 5 * Math.cos(((hour - 5) / 12) * Math.PI);

/** Wh/m² over the hour that ends at `hour`: a sun from six to eight, highest from twelve to two. */
export const madeSun = (hour: number): number => {
  const middle = hour - 0.5;
  return middle <= 6 || middle >= 20 ? 0 : Math.round(900 * Math.sin(((middle - 6) / 14) * Math.PI));
};

/** A row of 35 fields by the EPW data dictionary, of which those that nobody reads stand for "missing". */
export const epwRow = (
  { year, month, day, hour }: MadeHour,
  changed: Readonly<Record<number, string | number>> = {},
): string => {
  const fields: (string | number)[] = [
    ...[year, month, day, hour, 60, '?9?9?9?9E0?9?9?9?9'],
    ...[madeCelsius(hour).toFixed(1), 12, 50, 99_000, 9999, 9999, 9999, madeSun(hour), 9999, 9999],
    ...[999_999, 999_999, 999_999, 9999, 999, 2.5, 99, 99, 9999, 99_999, 9, 999_999_999],
    ...[999, 0.999, 999, 99, 999, 999, 99],
  ];
  for (const [place, value] of Object.entries(changed)) fields[Number(place) - 1] = value;
  return fields.join(',');
};

/** The hours of so many days from a date on, all of one year unless `yearOf` says otherwise. */
export const madeHours = (
  from: string,
  days: number,
  yearOf: (date: Date) => number = (date) => date.getUTCFullYear(),
): readonly MadeHour[] =>
  Array.from({ length: days * 24 }, (_, step) => {
    const date = new Date(Date.parse(`${from}T00:00Z`) + Math.floor(step / 24) * 24 * HOUR);
    return {
      year: yearOf(date),
      month: date.getUTCMonth() + 1,
      day: date.getUTCDate(),
      hour: (step % 24) + 1,
    };
  });

/** The eight lines before the data. */
export const epwHeader = (site: MadeSite = INVENTED_SITE, recordsPerHour = 1): readonly string[] => [
  `LOCATION,${site.name},-,-,invented,000000,${site.latitude},${site.longitude},${site.zone},${site.elevation}`,
  'DESIGN CONDITIONS,0',
  'TYPICAL/EXTREME PERIODS,0',
  'GROUND TEMPERATURES,0',
  'HOLIDAYS/DAYLIGHT SAVING,No,0,0,0',
  'COMMENTS 1,All of this is invented, for tests.',
  'COMMENTS 2,',
  `DATA PERIODS,1,${recordsPerHour},Data,Sunday, 1/ 1,12/31`,
];

/** The line of the first row of data. */
export const FIRST_ROW_LINE = 9;

export const epwText = (rows: readonly string[], header: readonly string[] = epwHeader()): string =>
  `${[...header, ...rows].join('\r\n')}\r\n`;
