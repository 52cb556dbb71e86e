import type { LanguageCode } from '../../farm/languages-spoken.ts';
import type { Bucket, Wilt } from '../facts.ts';
import { decimalComma, type BucketWords } from './language.ts';

const litres = ({ litresPerChannel }: Bucket): string => `${litresPerChannel} L`;
const litresComma = (bucket: Bucket): string => decimalComma(litres(bucket));

/** "every 15 min", or the words for a bench that no pace holds. */
const pace = ({ everyMinutes }: Bucket, every: (minutes: number) => string, often: string): string =>
  everyMinutes === null ? often : every(everyMinutes);

const english = (bucket: Bucket): string =>
  pace(bucket, (minutes) => `every ${minutes} min`, 'as often as you can');
const portuguese = (bucket: Bucket): string =>
  pace(bucket, (minutes) => `a cada ${minutes} min`, 'sempre que puder');
const spanish = (bucket: Bucket): string =>
  pace(bucket, (minutes) => `cada ${minutes} min`, 'siempre que pueda');
const french = (bucket: Bucket): string =>
  pace(bucket, (minutes) => `toutes les ${minutes} min`, 'le plus souvent possible');

/** Which bench gets water by hand first, how much and how often. */
export const BUCKETS: Readonly<Record<LanguageCode, BucketWords>> = {
  en: {
    full: (bucket) => `By bucket: ${bucket.bench} first, ${litres(bucket)} a channel ${english(bucket)}.`,
    brief: (bucket) => `First ${bucket.bench}: ${litres(bucket)}/channel ${english(bucket)}`,
  },
  pt: {
    full: (bucket) =>
      `A balde: primeiro ${bucket.bench}, ${litresComma(bucket)} por calha ${portuguese(bucket)}.`,
    brief: (bucket) => `1.º ${bucket.bench}: ${litresComma(bucket)}/calha ${portuguese(bucket)}`,
  },
  es: {
    full: (bucket) =>
      `Con cubo: primero ${bucket.bench}, ${litresComma(bucket)} por canal ${spanish(bucket)}.`,
    brief: (bucket) => `1.º ${bucket.bench}: ${litresComma(bucket)}/canal ${spanish(bucket)}`,
  },
  fr: {
    full: (bucket) =>
      `Au seau : d'abord ${bucket.bench}, ${litresComma(bucket)} par gouttière ${french(bucket)}.`,
    brief: (bucket) =>
      `1er ${bucket.bench} : ${litresComma(bucket)}/gouttière${pace(bucket, (minutes) => `/${minutes} min`, ', souvent')}`,
  },
};

/** The sentence with a blank before it, to follow another; empty where there is nothing to carry. */
export const withBucket = ({ full }: BucketWords, bucket: Bucket | null): string =>
  bucket === null ? '' : ` ${full(bucket)}`;

type Already = Omit<Extract<Wilt, { readonly kind: 'already' }>, 'kind'>;

const MORE: Readonly<Record<LanguageCode, (others: number) => string>> = {
  en: (others) => `and ${others} more`,
  pt: (others) => `e mais ${others}`,
  es: (others) => `y ${others} más`,
  fr: (others) => `et ${others} de plus`,
};

/** `Bench 4 (and 3 more)`; the name alone where no other may be wilting. */
export const withOthers = (code: LanguageCode, { bench, others }: Already): string =>
  others === undefined ? bench : `${bench} (${MORE[code](others)})`;

/** ` +3`, to follow the name in a text message; empty where there are none. */
export const othersBrief = ({ others }: Already): string => (others === undefined ? '' : ` +${others}`);
