'use strict';
// Runs in the page, behind the charting library: what all plots are drawn with.
(() => {
  const INK = '#1a1a1a';
  const EDGE = '#595959';
  const FONT = '13px system-ui, sans-serif';

  /** Words on the plot; a pale rim keeps them readable on a filled band. */
  const write = ({ ctx: context }, text, x, y, { align, baseline }) => {
    context.save();
    context.font = FONT.replace('13', String(13 * devicePixelRatio));
    context.textAlign = align;
    context.textBaseline = baseline;
    context.strokeStyle = '#fff';
    context.lineWidth = 4 * devicePixelRatio;
    context.strokeText(text, x, y);
    context.fillStyle = INK;
    context.fillText(text, x, y);
    context.restore();
  };

  globalThis.pen = {
    INK,
    EDGE,
    BAND: '#d9d9d9',
    HARMS: { danger: '#8b0000', caution: '#6b3a00' },
    write,

    /** A dashed level from edge to edge, with its name. */
    level: (chart, at, text) => {
      const { ctx: context } = chart;
      const { left, width } = chart.bbox;
      const y = chart.valToPos(at, 'y', true);
      context.save();
      context.lineWidth = 1.5 * devicePixelRatio;
      context.strokeStyle = INK;
      context.setLineDash([7 * devicePixelRatio, 4 * devicePixelRatio]);
      context.beginPath();
      context.moveTo(left, y);
      context.lineTo(left + width, y);
      context.stroke();
      context.restore();
      write(chart, text, left + 6 * devicePixelRatio, y - 2 * devicePixelRatio, {
        align: 'left',
        baseline: 'bottom',
      });
    },

    axis: {
      stroke: INK,
      font: FONT,
      labelFont: FONT,
      grid: { stroke: '#e3e3e3', width: 1 },
      ticks: { stroke: EDGE, width: 1 },
    },

    /** Draws again where the window has another width. */
    fitted: (chart, home, height) => {
      addEventListener('resize', () => {
        const { clientWidth: width } = home;
        if (width > 0 && width !== chart.width) chart.setSize({ width, height });
      });
    },
  };
})();
