import type { BucketCard, CardHours } from '../../src/estimate/bucket-card.ts';
import { escaped, paragraph } from './markup.ts';
import {
  CARD_BASIS,
  CARD_PLUG,
  CARD_RULES,
  channelsWords,
  everyWords,
  hoursWords,
  litresPerHour,
} from './card-words.ts';
import { MARKERS } from './page-shell.ts';

/** Black on white, in letters that are read at arm's length by torch light; one sheet of A4. */
const STYLE = `
body { font: 16px/1.4 sans-serif; color: #000; background: #fff; margin: 1.2em auto; max-width: 46em; padding: 0 1em; }
h1 { font-size: 1.7em; margin: 0 0 .2em; }
h2 { font-size: 1.15em; margin: 1em 0 .2em; }
table { border-collapse: collapse; width: 100%; }
th, td { border: 1px solid #000; padding: .25em .5em; text-align: left; }
td:first-child { font-weight: bold; width: 2em; }
ol { padding-left: 1.4em; } li { margin: .2em 0; }
.plug { border: 2px solid #000; padding: .4em .6em; font-weight: bold; }
.basis { font-size: .85em; }
@media print { body { font-size: 12px; margin: 0; max-width: none; } @page { size: A4; margin: 14mm; } section { break-inside: avoid; } }
`;

const rows = ({ rounds }: CardHours): string =>
  rounds
    .map(
      (round, place) =>
        `<tr><td>${place + 1}</td><td>${escaped(round.bench)}</td><td>${round.litresPerChannel.toFixed(1)} L × ${channelsWords(round)}</td><td>${everyWords(round)}</td></tr>`,
    )
    .join('');

const table = (hours: CardHours): string =>
  [
    `<section><h2>${escaped(hours.name)}, ${hoursWords(hours)}: about ${litresPerHour(hours.rounds).toFixed(0)} L an hour in all</h2>`,
    '<table><thead><tr><th>order</th><th>bench</th><th>pour</th><th>again</th></tr></thead>',
    `<tbody>${rows(hours)}</tbody></table></section>`,
  ].join('\n');

/** The bucket card as one page to be printed; it needs no script and nothing else. */
export const cardPage = ({ farm, date, hours }: BucketCard): string =>
  [
    `${MARKERS['bucket card']}<html lang="en"><head><meta charset="utf-8">`,
    `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src data:; style-src 'unsafe-inline'">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1"><link rel="icon" href="data:,">',
    `<title>${escaped(`Bucket card, ${farm.farm}`)}</title><style>${STYLE}</style></head><body>`,
    '<h1>If the pump cannot run: water by bucket</h1>',
    paragraph(`${farm.farm}, plants as of ${date}.`),
    ...(farm.invented === undefined
      ? []
      : [paragraph('An invented farm: none of these data are of a real one.')]),
    `<p class="plug">${escaped(CARD_PLUG)}</p>`,
    ...hours.map(table),
    `<ol>${CARD_RULES.map((rule) => `<li>${escaped(rule)}</li>`).join('\n')}</ol>`,
    `<p class="basis">${escaped(CARD_BASIS)}</p>`,
    '</body></html>\n',
  ].join('\n');
