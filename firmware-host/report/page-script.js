'use strict';
// Runs in the page, behind its pen: plots along the days. Everything drawn here stands in the tables of the page too.
(() => {
  const { INK, EDGE, BAND, HARMS } = pen;
  const NIGHT = '#eef1f6';
  const HEIGHT = 190;
  /** Of a mark of a flood, from the bottom up, and what is seen of a short one. */
  const FLOOD = { height: 9, width: 2 };
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

  /** Nights as a pale ground, under everything else. */
  const drawNights = (chart) => {
    const { ctx: context } = chart;
    const { left, top, width, height } = chart.bbox;
    for (const [from, until] of shown.nights ?? []) {
      const x = Math.max(left, chart.valToPos(from, 'x', true));
      const end = Math.min(left + width, chart.valToPos(until, 'x', true));
      context.fillStyle = NIGHT;
      context.fillRect(x, top, end - x, height);
    }
  };

  /** The word stands just above the floods, where there is room for it. */
  const nameNights = (chart) => {
    const { left, top, width, height } = chart.bbox;
    for (const [from, until] of shown.nights ?? []) {
      const x = Math.max(left, chart.valToPos(from, 'x', true));
      const end = Math.min(left + width, chart.valToPos(until, 'x', true));
      if (end - x < 40 * devicePixelRatio) continue;
      const y = top + height - (FLOOD.height + 1) * devicePixelRatio;
      pen.write(chart, 'night', (x + end) / 2, y, { align: 'center', baseline: 'bottom' });
    }
  };

  /** Floods as blocks that stand on the bottom of the plot. */
  const drawFloods = (chart) => {
    const { ctx: context } = chart;
    const { top, height } = chart.bbox;
    context.fillStyle = INK;
    for (const [from, until] of shown.floods ?? []) {
      const x = chart.valToPos(from, 'x', true);
      const width = Math.max(FLOOD.width * devicePixelRatio, chart.valToPos(until, 'x', true) - x);
      context.fillRect(
        x,
        top + height - FLOOD.height * devicePixelRatio,
        width,
        FLOOD.height * devicePixelRatio,
      );
    }
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
          ...pen.axis,
          size: 32,
          splits: (chart) => ticks(chart).map(({ at }) => at),
          values: (chart) => ticks(chart).map(({ text }) => text),
        },
        { ...pen.axis, size: 46 },
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
        drawClear: [drawNights],
        draw: [
          (chart) => {
            nameNights(chart);
            drawFloods(chart);
            for (const { at, text } of plot.levels) pen.level(chart, at, text);
          },
        ],
        setCursor: [
          (chart) => {
            const { idx: place } = chart.cursor;
            read.textContent = place === null || place === undefined ? '\u00a0' : words(plot, place);
          },
        ],
      },
    };
    const chart = new uPlot(options, [shown.minutes, plot.high, plot.low, plot.middle, ...tank], home);
    pen.fitted(chart, home, HEIGHT);
  };

  shown.plots.forEach(drawn);
})();
