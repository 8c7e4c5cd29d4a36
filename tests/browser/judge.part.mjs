// Every page as axe-core judges it, light and dark, wide and on a phone; nothing scrolls sideways.
import fs from 'node:fs';
import { createRequire } from 'node:module';

const source = fs.readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

// What stands in the index, and what a page leads to from there that is worth its own look.
async function pages(page) {
	return page.locator('nav.thumb a').evaluateAll(links => links.map(link => link.getAttribute('href')));
}

async function judge(tools, page, path, words) {
	const found = await page.evaluate(async () => {
		const result = await window.axe.run(document, { resultTypes: ['violations'] });
		return result.violations.filter(one => ['serious', 'critical'].includes(one.impact))
			.map(one => `${one.id}: ${one.nodes.slice(0, 3).map(node => node.html.slice(0, 120)).join(' ')}`);
	});
	tools.check(`axe: ${path} ${words} has nothing serious`, found.length === 0, found.join(' | '));
	const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
	tools.check(`axe: ${path} ${words} does not scroll sideways`, wide <= 0, `${wide} px`);
}

async function look(tools, house, scheme, width) {
	const page = await tools.window(house, { colorScheme: scheme, viewport: { width, height: 800 }, bypassCSP: true });
	await page.addInitScript(source);
	for (const path of [...await pages(page), '/nowhere', '/shore-papers/all?vessel=Quillfish']) {
		await page.goto(house.origin + path);
		await page.addScriptTag({ content: source });
		await judge(tools, page, path, `${scheme} at ${width}`);
	}
	tools.away = tools.away.filter(words => !words.includes('status of 404'));
}

export default async function all(tools) {
	const house = await tools.house('owner');
	house.ask('land', 'DB-1', 'LJ-1', 'FE-1', '--to', 'Holm Quay Safety Service', '--on', '2026-11-25');
	for (const scheme of ['light', 'dark']) {
		for (const width of [320, 800, 1400]) {
			await look(tools, house, scheme, width);
		}
	}
	const fleet = await tools.house('fleet');
	await look(tools, fleet, 'light', 800);
	const fresh = await tools.house('new');
	await look(tools, fresh, 'dark', 360);
}
