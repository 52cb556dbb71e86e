import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { reportPage } from '../../../firmware-host/report/page.ts';
import { MARKERS } from '../../../firmware-host/report/page-shell.ts';
import { farmWith } from '../../support/farm.ts';
import { clock, fault, rehearsalOf } from '../cli/made-rehearsal.ts';

const HOSTILE = `</script><img src=x onerror='a'>&amp;"`;

const scriptsOf = (page: string): readonly { readonly type: string; readonly text: string }[] =>
  [...page.matchAll(/<script([^>]*)>([\s\S]*?)<\/script/g)].map(([, type = '', text = '']) => ({
    type,
    text,
  }));

describe('the page of a rehearsal', () => {
  const page = reportPage(rehearsalOf([{}]));

  it('begins with its marker, and its first words are the verdict', () => {
    expect(page.startsWith(MARKERS.rehearsal)).toBe(true);
    const body = page.slice(page.indexOf('<main>')).replaceAll(/<[^>]*>/g, '');
    expect(body.trim()).toMatch(/^■ Holds, also if any one flood is missed\.\n/);
  });

  it('says that an invented farm is invented', () => {
    expect(page).toContain('An invented farm: none of these data are of a real one.');
  });

  it('holds no address, and nothing in it asks for another file', () => {
    expect(page.replaceAll('http-equiv', '')).not.toContain('http');
    expect(page).not.toMatch(/@import|url\(|\bsrc=|<link (?!rel="icon" href="data:,")/);
  });

  it('holds the licence of the charting library in full', () => {
    expect(page).toContain('Copyright (c) 2022 Leon Sorokin');
    expect(page).toContain('OUT OF OR IN CONNECTION WITH THE SOFTWARE');
  });

  it('allows one script to run, by its own hash, and no request', () => {
    const [data, script, ...more] = scriptsOf(page);
    expect(more).toEqual([]);
    expect(data?.type).toBe(' type="application/json" id="figures"');
    const hash = createHash('sha256')
      .update(script?.text ?? '')
      .digest('base64');
    expect(page).toContain(`default-src 'none';`);
    expect(page).toContain(`script-src 'sha256-${hash}'"`);
  });

  it('shows a farm and a bench named like markup as they are named', () => {
    const named = farmWith([['farm'], HOSTILE], [['benches', 0, 'name'], HOSTILE]);
    const hostile = reportPage(rehearsalOf([{ wilts: { 0: clock('14:00') } }], [], named));
    expect(hostile).not.toContain('<img');
    expect(scriptsOf(hostile)).toHaveLength(scriptsOf(page).length);
    const shown = '&lt;/script&gt;&lt;img src=x onerror=&#39;a&#39;&gt;&amp;amp;&quot;';
    expect(hostile).toContain(`<h3>${shown}</h3>`);
    expect(hostile).toContain(`<title>Rehearsal of ${shown}, 2026-07-15</title>`);
    expect(() => JSON.parse(scriptsOf(hostile)[0]?.text ?? '') as unknown).not.toThrow();
  });

  it('marks a bench that may wilt by shape and word, with the moment', () => {
    const wilting = reportPage(rehearsalOf([{ wilts: { 1: clock('14:00') } }]));
    expect(wilting).toContain('<strong class="danger">✖ May wilt from 14:00.</strong>');
    expect(wilting).toContain('<h1 class="danger">');
    expect(page).not.toContain('class="danger"');
  });

  it('is not marked as well where the tank grows too strong, though no bench wilts', () => {
    expect(page).toContain('<h1 class="well">');
    expect(reportPage(rehearsalOf([{ tankStrongest: 5 }]))).toContain('<h1 class="caution">');
  });

  it('lists an alarm with its time, its priority in a word, and its text', () => {
    const alarmed = reportPage(rehearsalOf([{ alarms: [[clock('13:30'), 'high']] }], [fault('13:00')]));
    expect(alarmed).toContain(
      '<li>13:30 <strong class="danger">✖ high</strong> An alarm of high priority, and where to look first.</li>',
    );
    expect(page).toContain('No alarm in the central run.');
  });

  it('draws no bench without plants, and says that there are none', () => {
    const empty = reportPage(rehearsalOf([{}], [], farmWith([['benches', 3, 'plants'], 0])));
    expect(empty).toContain('<h3>Bench 4</h3><p>No plants.</p>');
    expect(empty).not.toContain('<figcaption>Bench 4');
    expect(page).toContain('<figcaption>Bench 4, %');
  });

  it('has no row for the strength of a bench that is never above its wilt floor', () => {
    expect(page).toContain('Strongest above the wilt floor, mS/cm');
    expect(reportPage(rehearsalOf([{ strongest: null }]))).not.toContain('Strongest');
  });
});
