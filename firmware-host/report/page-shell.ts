import { createHash } from 'node:crypto';
import licence from 'uplot/LICENSE?raw';
import chartScript from 'uplot/dist/uPlot.iife.min.js?raw';
import chartStyle from 'uplot/dist/uPlot.min.css?raw';
import choiceScript from './choice-script.js?raw';
import { escaped, jsonForPage, paragraph, prose } from './markup.ts';
import penScript from './page-pen.js?raw';
import plotScript from './page-script.js?raw';
import style from './page-style.css?raw';

/** What a page tells of. */
export type ReportKind = 'rehearsal' | 'search' | 'bucket card';

/** By its first bytes a file is known as a report of ours, which may be replaced by one of its kind. */
export const MARKERS: Readonly<Record<ReportKind, string>> = {
  rehearsal: '<!doctype html>\n<!-- rillkeeper rehearsal report 1 -->\n',
  search: '<!doctype html>\n<!-- rillkeeper search report 1 -->\n',
  'bucket card': '<!doctype html>\n<!-- rillkeeper bucket card 1 -->\n',
};

/** The address in the first line of the library is left out: the page holds none, and its licence in full. */
const chart = chartScript.replace(/^\/\*![^*]*\*\/\s*/, '');
/** A page that draws. */
type DrawnKind = Exclude<ReportKind, 'bucket card'>;

const SCRIPTS: Readonly<Record<DrawnKind, string>> = {
  rehearsal: [penScript, plotScript].join('\n'),
  search: [penScript, plotScript, choiceScript].join('\n'),
};

/**
 * Nothing is asked of any other place, and no other script runs than this one, whatever stands in a farm file
 * (W3C, Content Security Policy Level 3).
 */
const policyFor = (script: string): string =>
  `default-src 'none'; img-src data:; style-src 'unsafe-inline'; script-src 'sha256-${createHash('sha256').update(script).digest('base64')}'`;

export const section = (title: string, ...lines: readonly string[]): string =>
  `<section><h2>${escaped(title)}</h2>\n${lines.join('\n')}\n</section>`;

export const sectionUnlessEmpty = (title: string, lines: readonly string[]): readonly string[] =>
  lines.length === 0 ? [] : [section(title, ...lines.map(paragraph))];

export const NO_SCRIPT =
  '<noscript><p>Plots need script, which is off here: the same figures are in the tables below.</p></noscript>';

/** How its first sentence is marked: a class, and a sign, so that colour never stands alone. */
export interface PageMark {
  readonly kind: 'well' | 'caution' | 'danger';
  readonly sign: string;
}

export const MARKS = {
  well: { kind: 'well', sign: '■' },
  caution: { kind: 'caution', sign: '▲' },
  danger: { kind: 'danger', sign: '✖' },
} as const satisfies Readonly<Record<PageMark['kind'], PageMark>>;

/** A page that needs nothing else; what it says is its first sentence. */
export const wholePage = (page: {
  readonly kind: DrawnKind;
  readonly title: string;
  readonly mark: PageMark;
  readonly says: string;
  readonly sections: readonly string[];
  /** What its script draws. */
  readonly figures: object;
}): string => {
  const { kind, title, mark, says, sections, figures } = page;
  const script = `/*\nDrawn with uPlot 1.6\n${licence}*/\n${chart}\n${SCRIPTS[kind]}`;
  return [
    `${MARKERS[kind]}<html lang="en"><head><meta charset="utf-8">`,
    `<meta http-equiv="Content-Security-Policy" content="${policyFor(script)}">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1"><link rel="icon" href="data:,">',
    `<title>${escaped(title)}</title>`,
    `<style>${chartStyle}\n${style}</style></head><body><main>`,
    `<h1 class="${mark.kind}"><span aria-hidden="true">${mark.sign}</span> ${prose(says)}</h1>`,
    ...sections,
    '</main>',
    `<script type="application/json" id="figures">${jsonForPage(figures)}</script>`,
    `<script>${script}</script></body></html>\n`,
  ].join('\n');
};
