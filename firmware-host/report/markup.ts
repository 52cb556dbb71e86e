const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text that came from a file or a person, safe between tags and inside a quoted attribute. */
export const escaped = (text: string): string => text.replace(/[&<>"']/g, (letter) => ENTITIES[letter] ?? '');

/**
 * Data for a script element. Its text ends at the first closing tag and a comment may open in it (WHATWG HTML,
 * "Restrictions for contents of script elements"), so no `<` stands in it.
 */
export const jsonForPage = (data: unknown): string => JSON.stringify(data).replaceAll('<', '\\u003c');

/** A figure and its unit stay on one line, and so do a `>` and its figure and the two sides of a `×`. */
export const prose = (text: string): string =>
  escaped(text)
    .replace(/(\d) (?=(?:%|°C|min|h|L|mg\/L|mS\/cm|kWh)(?![a-z]))/g, '$1\u00a0')
    .replace(/&gt; (?=\d)/g, '&gt;\u00a0')
    .replaceAll(' × ', '\u00a0×\u00a0');

export const paragraph = (text: string): string => `<p>${prose(text)}</p>`;

/** A minus sign as wide as a plus. */
export const figure = (value: number, digits: number): string =>
  value
    .toFixed(digits)
    .replace(/^-(?=.*[1-9])/, '−')
    .replace(/^-/, '');

/** Wrong things have a shape and a word beside their colour: of a danger to the crop, and of one to be minded. */
export const marked = (kind: 'danger' | 'caution', text: string): string =>
  `<strong class="${kind}">${kind === 'danger' ? '✖' : '▲'} ${prose(text)}</strong>`;
