// SPDX-License-Identifier: GPL-3.0-or-later
// Opens a report in headless Chromium: node report.mjs REPORT [PICTURE-DIR].
// Wants: one request (the file itself), nothing on the console, no sideways scroll of the page at
// phone and desk width, headings in order, ids unique, inner links that lead somewhere, text with
// a contrast of 4.5 in light and dark, no plan label over another.
// Exit status 77 (skip) when playwright-core or Chromium is not there.
import { existsSync, mkdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { resolve, join } from 'node:path';
import { pathToFileURL } from 'node:url';

const chromium_path = '/usr/bin/chromium';
const [report, pictures] = process.argv.slice(2);

function skip(why) {
    console.log(`1..0 # SKIP ${why}`);
    process.exit(77);
}

function load() {
    const places = [process.env.NODE_PATH, process.cwd(), import.meta.dirname];
    for (const place of places.filter(Boolean)) {
        try {
            return createRequire(join(resolve(place), 'x.js'))('playwright-core');
        } catch { /* the next place */ }
    }
    return null;
}

const playwright = load();
if (!playwright) skip('playwright-core is not installed');
if (!existsSync(chromium_path)) skip('Chromium is not installed');
if (!report || !existsSync(report)) {
    console.error(`no report at ${report}`);
    process.exit(1);
}
if (pictures) mkdirSync(pictures, { recursive: true });

let failed = 0, number = 0;
function ok(condition, name, detail) {
    number++;
    if (!condition) failed++;
    console.log(`${condition ? 'ok' : 'not ok'} ${number} - ${name}`);
    if (!condition && detail !== undefined) console.log(`# ${JSON.stringify(detail).slice(0, 2000)}`);
}

const args = ['--no-sandbox', '--disable-gpu', '--disable-background-networking',
    '--disable-component-update', '--no-first-run', '--disable-sync', '--disable-dev-shm-usage'];
const browser = await playwright.chromium.launch({ executablePath: chromium_path, args });

// Everything below runs inside the page.
function contrasts() {
    const canvas = document.createElement('canvas').getContext('2d', { willReadFrequently: true });
    const rgba = css => {
        canvas.clearRect(0, 0, 1, 1);
        canvas.fillStyle = css;
        canvas.fillRect(0, 0, 1, 1);
        return [...canvas.getImageData(0, 0, 1, 1).data];
    };
    const light = c => {
        const [r, g, b] = c.map(v => (v /= 255) <= 0.03928 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
        return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    const ground = element => {
        for (let e = element; e; e = e.parentElement) {
            const c = rgba(getComputedStyle(e).backgroundColor);
            if (c[3] === 255) return c;
        }
        return [255, 255, 255, 255];
    };
    const poor = [];
    for (const e of document.querySelectorAll('body *')) {
        if (![...e.childNodes].some(n => n.nodeType === 3 && n.data.trim())) continue;
        const svg = e.ownerSVGElement;
        const style = getComputedStyle(e);
        if (style.display === 'none') continue;
        if (svg && e.tagName !== 'text') continue;
        const sea = svg?.querySelector('.lease');
        const under = sea ? rgba(getComputedStyle(sea).fill) : ground(e);
        const a = light(rgba(svg ? style.fill : style.color).slice(0, 3)), b = light(under.slice(0, 3));
        const ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
        if (ratio < 4.5) poor.push([e.tagName, e.textContent.trim().slice(0, 30), ratio]);
    }
    return poor;
}

function structure() {
    const levels = [...document.querySelectorAll('h1,h2,h3,h4,h5,h6')].map(h => +h.tagName[1]);
    const ids = [...document.querySelectorAll('[id]')].map(e => e.id);
    return {
        levels,
        skips: levels.filter((level, i) => level > (i ? levels[i - 1] : 0) + 1),
        doubled: ids.filter((id, i) => ids.indexOf(id) !== i),
        dead: [...document.querySelectorAll('a[href^="#"]')].map(a => a.getAttribute('href'))
            .filter(h => !document.getElementById(h.slice(1))),
        outside: [...document.querySelectorAll('[src],[href]')]
            .map(e => e.getAttribute('src') ?? e.getAttribute('href'))
            .filter(a => !a.startsWith('#') && !a.startsWith('data:')),
        scripts: document.querySelectorAll('script').length,
        csp: document.querySelector('meta[http-equiv="Content-Security-Policy"]')?.content ?? '',
        first: document.querySelector('main section')?.classList.contains('sum'),
    };
}

// Labels of the plan come in pairs (id over use); texts of the drawing may not cover each other.
function covered() {
    const texts = [...document.querySelectorAll('svg.plan text')];
    const boxes = texts.map(t => t.getBoundingClientRect());
    const bad = [];
    for (let i = 0; i < boxes.length; i++)
        for (let k = i + 1; k < boxes.length; k++) {
            const a = boxes[i], b = boxes[k];
            const w = Math.min(a.right, b.right) - Math.max(a.left, b.left);
            const h = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
            if (w > 1 && h > 4) bad.push([texts[i].textContent, texts[k].textContent, w, h]);
        }
    return bad;
}

async function look(width, scheme) {
    const context = await browser.newContext({
        viewport: { width, height: 900 }, colorScheme: scheme, bypassCSP: false,
    });
    const page = await context.newPage();
    const requests = [], said = [];
    page.on('request', r => { if (!r.url().startsWith('data:')) requests.push(r.url()); });
    page.on('console', m => said.push(m.text()));
    page.on('pageerror', e => said.push(String(e)));
    await page.goto(pathToFileURL(resolve(report)).href, { waitUntil: 'load' });
    const name = `${width} px, ${scheme}`;
    ok(requests.length === 1, `${name}: one request`, requests);
    const over = await page.evaluate(() =>
        document.documentElement.scrollWidth - document.documentElement.clientWidth);
    ok(over <= 0, `${name}: the page does not scroll sideways`, over);
    const poor = await page.evaluate(contrasts);
    ok(poor.length === 0, `${name}: contrast of all text is 4.5 or more`, poor.slice(0, 8));
    const bad = await page.evaluate(covered);
    ok(bad.length === 0, `${name}: no label of the plan covers another`, bad.slice(0, 8));
    ok(said.length === 0, `${name}: nothing on the console`, said);
    if (pictures)
        await page.screenshot({ path: join(pictures, `report-${width}-${scheme}.png`), fullPage: true });
    return { context, page };
}

for (const [width, scheme] of [[390, 'light'], [390, 'dark'], [1280, 'light'], [1280, 'dark']]) {
    const { context, page } = await look(width, scheme);
    if (width === 1280 && scheme === 'light') {
        const s = await page.evaluate(structure);
        ok(s.levels[0] === 1 && s.levels.filter(l => l === 1).length === 1, 'one first heading', s.levels);
        ok(s.skips.length === 0, 'headings in order', s.levels);
        ok(s.first, 'the verdict comes first');
        ok(s.doubled.length === 0, 'ids are unique', s.doubled);
        ok(s.dead.length === 0, 'inner links lead somewhere', s.dead);
        ok(s.outside.length === 0, 'no outside address', s.outside);
        ok(s.scripts === 0, 'no script');
        ok(s.csp.startsWith("default-src 'none'"), 'policy forbids all loading', s.csp);
        if (pictures && await page.locator('svg.plan').count())
            await page.locator('svg.plan').screenshot({ path: join(pictures, 'plan.png') });
    }
    await context.close();
}

// On paper: A4 less its margins; what is wider than the sheet would be cut off.
const context = await browser.newContext({ viewport: { width: 703, height: 1000 }, colorScheme: 'dark' });
const page = await context.newPage();
await page.emulateMedia({ media: 'print' });
await page.goto(pathToFileURL(resolve(report)).href);
const wide = await page.evaluate(() => [...document.querySelectorAll('table,svg,p')]
    .filter(e => e.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
    .map(e => [e.tagName, e.getAttribute('aria-label') ?? e.parentElement.getAttribute('aria-label'),
        e.getBoundingClientRect().width]));
ok(wide.length === 0, 'on A4 nothing is wider than the sheet', wide);
const paper = await page.evaluate(() => getComputedStyle(document.body).backgroundColor);
ok(paper === 'rgb(255, 255, 255)', 'paper stays white in the dark scheme', paper);
if (pictures) {
    await page.screenshot({ path: join(pictures, 'report-print.png'), fullPage: true });
    await page.pdf({ path: join(pictures, 'report.pdf'), preferCSSPageSize: true });
}
await browser.close();
console.log(`1..${number}`);
process.exit(failed ? 1 : 0);
