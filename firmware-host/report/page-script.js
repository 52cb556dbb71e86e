'use strict';
// Runs in the page, behind the charting library. Everything drawn here stands in the tables of the page too.
(() => {
  const INK = '#1a1a1a';
  const EDGE = '#595959';
  const BAND = '#d9d9d9';
  const HARMS = { danger: '#8b0000', caution: '#6b3a00' };
  const HEIGHT = 190;
  const FONT = '13px system-ui, sans-serif';
  /** Pixels between two labels along the span. */
  const TICK_ROOM = 46;

  const shown = JSON.parse(document.getElementById('figures').textContent);
  const cursors = uPlot.sync('moment');

  /** The outline of what of the band lies below a level. */
  const bandBelow = (chart, plot, level) => {
    const path = new Path2D();
    const x = (place) => chart.valToPos(shown.minutes[place], 'x', true);
    const y = (value) => chart.valToPos(Math.min(value, level), 'y', true);
    plot.high.forEach((value, place) => path.lineTo(x(place), y(value)));
    for (let place = plot.low.length - 1; place >= 0; place -= 1) path.lineTo(x(place), y(plot.low[place]));
    path.closePath();
    return path;
  };

  /** Brown strokes aslant for what is to be minded: told from solid red without colour. */
  const hatched = (context, colour) => {
    const tile = document.createElement('canvas');
    const side = 6 * devicePixelRatio;
    tile.width = tile.height = side;
    const pen = tile.getContext('2d');
    pen.strokeStyle = colour;
    pen.lineWidth = 1.5 * devicePixelRatio;
    pen.beginPath();
    for (const from of [-side, 0, side]) {
      pen.moveTo(from, side);
      pen.lineTo(from + side, 0);
    }
    pen.stroke();
    return context.createPattern(tile, 'repeat');
  };

  const drawHarm = (chart, plot) => {
    const { ctx: context } = chart;
    context.save();
    for (const { at, harm } of plot.levels) {
      if (harm === null) continue;
      context.fillStyle = harm === 'danger' ? HARMS.danger : hatched(context, HARMS.caution);
      const area = bandBelow(chart, plot, at);
      context.fill(area);
      // Where the band is one line it has no area.
      context.strokeStyle = HARMS[harm];
      context.lineWidth = 2 * devicePixelRatio;
      if (plot.low.some((value) => value < at)) {
        const { left, width, top, height } = chart.bbox;
        // The edge that lies in the level is none of the band's.
        const level = chart.valToPos(at, 'y', true) + 2 * devicePixelRatio;
        context.save();
        context.beginPath();
        context.rect(left, level, width, Math.max(0, top + height - level));
        context.clip();
        context.stroke(area);
        context.restore();
      }
    }
    context.restore();
  };

  const drawLevels = (chart, plot) => {
    const { ctx: context } = chart;
    const { left, width } = chart.bbox;
    context.save();
    context.font = FONT.replace('13', String(13 * devicePixelRatio));
    context.textAlign = 'left';
    context.textBaseline = 'bottom';
    context.lineWidth = 1.5 * devicePixelRatio;
    for (const { at, text } of plot.levels) {
      const y = chart.valToPos(at, 'y', true);
      context.strokeStyle = INK;
      context.setLineDash([7 * devicePixelRatio, 4 * devicePixelRatio]);
      context.beginPath();
      context.moveTo(left, y);
      context.lineTo(left + width, y);
      context.stroke();
      // A pale rim keeps the words readable on a filled band.
      context.setLineDash([]);
      context.strokeStyle = '#fff';
      context.lineWidth = 4 * devicePixelRatio;
      context.strokeText(text, left + 6 * devicePixelRatio, y - 2 * devicePixelRatio);
      context.lineWidth = 1.5 * devicePixelRatio;
      context.fillStyle = INK;
      context.fillText(text, left + 6 * devicePixelRatio, y - 2 * devicePixelRatio);
    }
    context.restore();
  };

  const words = (plot, place) => {
    if (plot.middle[place] === null) return `${shown.moments[place]}: –`;
    const said = (value) => value.toFixed(plot.digits);
    const [low, middle, high] = [plot.low, plot.middle, plot.high].map((values) => said(values[place]));
    const band = low === high ? '' : ` (${low} to ${high})`;
    const tank = plot.tank === null ? '' : `, tank ${said(plot.tank[place])}`;
    return `${shown.moments[place]}: ${middle}${band} ${plot.unit}${tank}`;
  };

  const line = (stroke, width, more) => ({ stroke, width, points: { show: false }, ...more });

  const drawn = (plot) => {
    const home = document.getElementById(plot.id);
    const read = home.nextElementSibling;
    read.hidden = false;
    const ticks = (chart) => {
      const every = Math.ceil(shown.ticks.length / Math.max(1, chart.width / TICK_ROOM));
      return shown.ticks.filter((_, place) => place % every === 0);
    };
    const axis = {
      stroke: INK,
      font: FONT,
      grid: { stroke: '#e3e3e3', width: 1 },
      ticks: { stroke: EDGE, width: 1 },
    };
    const tank = plot.tank === null ? [] : [plot.tank];
    const options = {
      width: home.clientWidth,
      height: HEIGHT,
      legend: { show: false },
      cursor: { y: false, drag: { x: false, y: false }, points: { show: false }, sync: { key: cursors.key } },
      scales: {
        x: { time: false, range: [0, shown.until] },
        y: { range: [plot.least, plot.most] },
      },
      axes: [
        {
          ...axis,
          size: 32,
          splits: (chart) => ticks(chart).map(({ at }) => at),
          values: (chart) => ticks(chart).map(({ text }) => text),
        },
        { ...axis, size: 46 },
      ],
      series: [
        {},
        line(EDGE, 1),
        line(EDGE, 1),
        line(INK, 2),
        ...tank.map(() => line(INK, 2, { dash: [2, 4] })),
      ],
      bands: [{ series: [1, 2], fill: BAND }],
      hooks: {
        // Above the band, below the middle line.
        drawSeries: [
          (chart, place) => {
            if (place === 2) drawHarm(chart, plot);
          },
        ],
        draw: [(chart) => drawLevels(chart, plot)],
        setCursor: [
          (chart) => {
            const { idx: place } = chart.cursor;
            read.textContent = place === null || place === undefined ? '\u00a0' : words(plot, place);
          },
        ],
      },
    };
    const chart = new uPlot(options, [shown.minutes, plot.high, plot.low, plot.middle, ...tank], home);
    return () => {
      const { clientWidth: width } = home;
      if (width > 0 && width !== chart.width) chart.setSize({ width, height: HEIGHT });
    };
  };

  const fits = shown.plots.map(drawn);
  addEventListener('resize', () => fits.forEach((fit) => fit()));
})();
