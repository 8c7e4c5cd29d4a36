// Bring a list: one as people keep it, not clear in four ways, is cleared up and written.
import fs from 'node:fs';
import path from 'node:path';

const LIST = `Tag;What it is;Where;Made;Colour
LJ-9;lifejacket auto;wet locker;05/04/2021;red
FE-9;Pulverlöscher dry;companionway;06/05/2022;white
TOTAL;;;;
`;

export default async function list(tools) {
	const house = await tools.house('owner');
	const file = path.join(tools.folder, 'my list.csv');
	fs.writeFileSync(file, LIST);
	const page = await tools.window(house, { javaScriptEnabled: false });
	const before = house.ask('book', 'journal');
	await page.getByRole('link', { name: 'Bring a list' }).first().click();
	await page.getByLabel('A spreadsheet').setInputFiles(file);
	await page.getByRole('button', { name: 'Read it' }).click();
	const asked = await page.locator('main').innerText();
	tools.check('list: what is not clear is asked, with what stands in it',
		asked.includes('Colour') && asked.includes('red') && asked.includes('05/04/2021'), asked);
	for (let turn = 0; turn < 6 && await page.getByRole('button', { name: 'Try again' }).count() > 0; turn++) {
		for (const [name, value] of [['order', 'day'], ['means.Pulverlöscher dry', 'extinguisher-powder'],
			['map.Colour', 'ignore'], ['means.TOTAL', 'no-gear'], ['map.What it is', 'kind'], ['map.Where', 'place']]) {
			const choice = page.locator(`select[name="${name}"]`);
			if (await choice.count() > 0) {
				await choice.selectOption(value);
			}
		}
		for (const tick of await page.locator('main input[type=checkbox]').all()) {
			await tick.check();
		}
		await page.getByLabel('Lines to pass over').fill('4');
		await page.getByRole('button', { name: 'Try again' }).click();
	}
	const said = await page.locator('main').innerText();
	tools.check('list: cleared up, what they would become stands there with its dates',
		said.includes('What they would become') && said.includes('FE-9') && said.includes('powder extinguisher'), said);
	tools.check('list: what writing changes stands there, and nothing is written yet',
		said.includes('2 to be added') && house.ask('book', 'journal') === before, said.slice(-600));
	await page.getByRole('button', { name: 'Write it' }).click();
	await page.getByRole('status').first().waitFor();
	const shown = house.json('list').filter(row => ['LJ-9', 'FE-9'].includes(row.tag));
	tools.check('list: written, it is in the book as it was shown',
		shown.length === 2 && shown.some(row => row.kind === 'extinguisher-powder' && row.made === '2022-05-06'),
		JSON.stringify(shown));
}
