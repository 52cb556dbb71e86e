/** Expressions that look at a page from inside. */

/** How wide it is, and how wide its window. */
export const WIDTHS = 'JSON.stringify([document.documentElement.scrollWidth, innerWidth])';

/**
 * Of each plot the share of its columns in which something is as dark as its line. The dashes of a level fill no
 * more than two thirds of them; names of the axes are left out.
 */
export const INK = `JSON.stringify([...document.querySelectorAll('.plot canvas')].map((canvas) => {
  const left = 60;
  const width = canvas.width - left - 30;
  const height = canvas.height - 32;
  const { data } = canvas.getContext('2d').getImageData(left, 0, width, height);
  const columns = new Set();
  for (let at = 0; at < data.length; at += 4)
    if (data[at + 3] > 200 && data[at] < 160 && data[at + 1] < 100) columns.add((at / 4) % width);
  return columns.size / width;
}))`;
