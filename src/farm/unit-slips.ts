/** A unit that is often written in place of the one in the key, and how to come back from it. */
interface Slip {
  /** How the key ends. */
  readonly key: RegExp;
  readonly unit: string;
  readonly fromUnit: (value: number) => number;
}

const SLIPS: readonly Slip[] = [
  { key: /Millimetres$/, unit: 'metres', fromUnit: (value) => value * 1000 },
  { key: /Millimetres$/, unit: 'centimetres', fromUnit: (value) => value * 10 },
  { key: /(?:^m|M)etres(?:Max)?$/, unit: 'millimetres', fromUnit: (value) => value / 1000 },
  { key: /(?:^m|M)etres(?:Max)?$/, unit: 'centimetres', fromUnit: (value) => value / 100 },
  { key: /Minutes$|^shortest$|^longest$/, unit: 'seconds', fromUnit: (value) => value / 60 },
  { key: /Seconds$/, unit: 'milliseconds', fromUnit: (value) => value / 1000 },
  { key: /Celsius$/, unit: 'degrees Fahrenheit', fromUnit: (value) => ((value - 32) * 5) / 9 },
  { key: /MillisiemensPerCm$/, unit: 'microsiemens per cm', fromUnit: (value) => value / 1000 },
  { key: /(?:L|l)itresPerMinute(?:Max)?$/, unit: 'litres per hour', fromUnit: (value) => value / 60 },
  { key: /(?:Share|stress|wilt)$/, unit: 'percent', fromUnit: (value) => value / 100 },
];

/** What was perhaps meant by a number that is out of its range, in words, or null. */
export const unitSlip = (key: string, value: number, least: number, most: number): string | null => {
  for (const slip of SLIPS) {
    if (!slip.key.test(key)) continue;
    const meant = slip.fromUnit(value);
    if (!(meant >= least && meant <= most)) continue;
    return `If ${value} is in ${slip.unit}, write ${Number(meant.toPrecision(3))}.`;
  }
  return null;
};
