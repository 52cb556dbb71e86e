'use strict';
// Runs in the page of a search, behind its pen: margin against number of floods. All of it stands in the table of choices too.
(() => {
  const { INK, EDGE, BAND, HARMS } = pen;
  const HEIGHT = 300;
  /** Half the width of a band, and of a mark. */
  const HALF = { band: 7, mark: 5 };
  const { choices } = JSON.parse(document.getElementById('figures').textContent);
  const home = document.getElementById('choices');
  if (choices === null || home === null) return;
  const { points, least, most, xLeast, xMost } = choices;
  const read = home.nextElementSibling;
  read.hidden = false;

  const bar = (context, x, from, until) => {
    const half = HALF.band * devicePixelRatio;
    context.fillStyle = BAND;
    context.fillRect(x - half, until, 2 * half, from - until);
    context.strokeStyle = EDGE;
    context.lineWidth = devicePixelRatio;
    context.strokeRect(x - half, until, 2 * half, from - until);
  };

  const stroke = (context, x, y, half) => {
    context.strokeStyle = INK;
    context.lineWidth = 2 * devicePixelRatio;
    context.beginPath();
    context.moveTo(x - half, y);
    context.lineTo(x + half, y);
    context.stroke();
  };

  /** Of the driest run: a filled square of the smallest safe plan, a cross of one that fails, an open diamond of any other. */
  const MARKS = {
    smallest: (context, x, y, half) => {
      context.fillStyle = INK;
      context.fillRect(x - half, y - half, 2 * half, 2 * half);
    },
    fails: (context, x, y, half) => {
      context.strokeStyle = HARMS.danger;
      context.lineWidth = 3 * devicePixelRatio;
      context.beginPath();
      for (const side of [-1, 1]) {
        context.moveTo(x - half, y - side * half);
        context.lineTo(x + half, y + side * half);
      }
      context.stroke();
    },
    holds: (context, x, y, half) => {
      const reach = half * 1.3;
      context.beginPath();
      context.moveTo(x - reach, y);
      context.lineTo(x, y - reach);
      context.lineTo(x + reach, y);
      context.lineTo(x, y + reach);
      context.closePath();
      context.fillStyle = '#fff';
      context.fill();
      context.strokeStyle = INK;
      context.lineWidth = 2 * devicePixelRatio;
      context.stroke();
    },
  };

  /** A word at a point, kept inside the plot. */
  const named = (chart, text, x, y, baseline) => {
    const { left, width } = chart.bbox;
    const room = 56 * devicePixelRatio;
    const align = x < left + room ? 'left' : x > left + width - room ? 'right' : 'center';
    const at = align === 'left' ? left + 2 : align === 'right' ? left + width - 2 : x;
    pen.write(chart, text, at, y, { align, baseline });
  };

  const draw = (chart) => {
    const { ctx: context } = chart;
    const y = (value) => chart.valToPos(value, 'y', true);
    const half = HALF.mark * devicePixelRatio;
    const gap = 4 * devicePixelRatio;
    context.save();
    const xOf = ({ x }) => chart.valToPos(x, 'x', true);
    for (const point of points) {
      bar(context, xOf(point), y(point.low), y(point.high));
      stroke(context, xOf(point), y(point.middle), HALF.band * devicePixelRatio);
    }
    // Over the bands: where they reach below it is what is asked.
    pen.level(chart, 0, 'wilt floor');
    for (const point of points) MARKS[point.mark](context, xOf(point), y(point.driest), half);
    for (const point of points) {
      const { high, driest, above, below } = point;
      if (above !== '') named(chart, above, xOf(point), y(high) - gap, 'bottom');
      if (below !== '') named(chart, below, xOf(point), y(driest) + half + gap, 'top');
    }
    context.restore();
  };

  const unseen = { show: false };
  const chart = new uPlot(
    {
      width: home.clientWidth,
      height: HEIGHT,
      legend: unseen,
      cursor: { y: false, drag: { x: false, y: false }, points: unseen },
      scales: { x: { time: false, range: [xLeast, xMost] }, y: { range: [least, most] } },
      axes: [
        { ...pen.axis, size: 32, incrs: [1, 2, 5, 10, 20, 50], label: 'floods a day', labelSize: 20 },
        { ...pen.axis, size: 46 },
      ],
      series: [{}, { stroke: 'transparent', points: unseen }],
      hooks: {
        draw: [draw],
        setCursor: [
          ({ cursor }) => {
            read.textContent = points[cursor.idx]?.says ?? '\u00a0';
          },
        ],
      },
    },
    [points.map(({ x }) => x), points.map(({ driest }) => driest)],
    home,
  );
  pen.fitted(chart, home, HEIGHT);
})();
