// The locker: found as one types, done today, set aside, a picture kept with a piece.
import fs from 'node:fs';
import path from 'node:path';

// The smallest PNG: one transparent pixel (RFC 2083's signature, IHDR, IDAT, IEND).
const PIXEL = Buffer.from('iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNkYPhfDwAChwGA60e6kgAAAABJRU5ErkJggg==', 'base64');

async function findAsOneTypes(tools, house) {
	const page = await tools.window(house);
	await page.goto(`${house.origin}/locker`);
	const shown = () => page.locator('main .rows > .row:visible a.tag').allInnerTexts();
	const all = await shown();
	await page.getByLabel('Find by tag').pressSequentially('raft');
	const found = await shown();
	tools.check('locker: rows thin out as one types', all.length > 20 && found.length > 0 && found.length < 8 && found.includes('LR-1'),
		`${all.length}: ${found}`);
	tools.check('locker: how many are left is told', (await page.getByRole('status').innerText()).startsWith(`${found.length} of ${all.length} `),
		await page.getByRole('status').innerText());
	await page.getByLabel('Find by tag').fill('QF60417');
	tools.check('locker: a serial number finds its piece as one types', (await shown()).join() === 'LR-1', (await shown()).join());
	await page.getByLabel('Find by tag').press('Enter');
	await page.waitForURL(/q=QF60417/);
	tools.check('locker: the return key asks the book', (await shown()).join() === 'LR-1', (await shown()).join());
}

async function actsOfACard(tools, house, options, words) {
	const page = await tools.window(house, options);
	await page.goto(`${house.origin}/locker/FA-1`);
	await page.getByRole('link', { name: 'Looked over today' }).click();
	const changes = await page.locator('.change').innerText();
	tools.check(`${words}: what was looked over today says at once what that changes`,
		changes.includes('FA-1: inspection of 25 Nov 2026 is written down'), changes);
	tools.check(`${words}: and nothing is written yet`, !house.json('show', 'FA-1').records.some(record => record.on === '2026-11-25'));
	await page.getByRole('button', { name: 'Save:' }).click();
	await page.getByRole('status').first().waitFor();
	tools.check(`${words}: saved, it stands in the book`, house.json('show', 'FA-1').records.some(record => record.on === '2026-11-25'));

	await page.goto(`${house.origin}/locker/TE-2`);
	await page.getByRole('link', { name: 'Keep it as an extra' }).click();
	await page.getByRole('button', { name: 'See what it changes' }).click();
	tools.check(`${words}: an extra is told before it is one`, (await page.locator('.change').innerText()).includes('TE-2: stands reserve; until now aboard'),
		await page.locator('.change').innerText());
	await page.getByRole('button', { name: 'Save:' }).click();
	await page.getByRole('status').first().waitFor();
	tools.check(`${words}: set aside, it is an extra`, house.json('show', 'TE-2').state === 'reserve', house.json('show', 'TE-2').state);
	await page.getByRole('link', { name: 'Count it again' }).click();
	await page.getByRole('button', { name: 'See what it changes' }).click();
	await page.getByRole('button', { name: 'Save:' }).click();
	await page.getByRole('status').first().waitFor();
	tools.check(`${words}: and is counted again`, house.json('show', 'TE-2').state === 'aboard');

	const label = path.join(tools.folder, 'label.png');
	const lie = path.join(tools.folder, 'page.png');
	fs.writeFileSync(label, PIXEL);
	fs.writeFileSync(lie, '<script>alert(1)</script>');
	await page.goto(`${house.origin}/locker/LR-1`);
	for (const file of [lie, label]) {
		await page.getByText('Keep a picture or a paper with it').click();
		await page.getByLabel('Picture of its label').setInputFiles(file);
		await page.getByLabel('What it shows').fill('its <b>label</b>');
		await page.getByRole('button', { name: 'Keep it with LR-1' }).click();
		await page.getByRole('status').first().waitFor();
		if (file === lie) {
			tools.check(`${words}: what only calls itself a picture is not kept`,
				(await page.getByRole('status').first().innerText()).startsWith('It is not kept') && house.json('papers', 'LR-1').length === 0);
		}
	}
	tools.check(`${words}: a picture is kept with its piece and stands on its card`,
		await page.locator('.pics img').evaluate(image => image.complete && image.naturalWidth === 1) &&
		(await page.locator('.pics').innerText()).includes('its <b>label</b>'));
}

// On the list to buy and off it again; the list stands in This winter.
async function listToBuy(tools, house, options, words) {
	const page = await tools.window(house, options);
	const wanted = () => page.locator('#wanted .row');
	await page.goto(`${house.origin}/locker/LJ-3`);
	await page.getByRole('link', { name: 'Put it on the list to buy' }).click();
	await page.getByLabel('What to buy').fill('two cylinders, <b>33 g</b>');
	await page.getByRole('button', { name: 'See what it changes' }).click();
	tools.check(`${words}: what goes on the list to buy is told before it does`,
		(await page.locator('.change').innerText()).includes('LJ-3: to buy two cylinders, <b>33 g</b>') && house.json('show', 'LJ-3').to_buy === null,
		await page.locator('.change').innerText());
	await page.getByRole('button', { name: 'Save:' }).click();
	await page.getByRole('status').first().waitFor();
	await page.goto(`${house.origin}/winter`);
	tools.check(`${words}: This winter has the list to buy`, (await wanted().allInnerTexts()).length === 1 &&
		(await wanted().innerText()).includes('two cylinders, <b>33 g</b>') && (await wanted().innerText()).includes('LJ-3'),
	await wanted().allInnerTexts());

	await page.getByRole('link', { name: 'Print the list to take along' }).click();
	const along = await page.locator('main').innerText();
	tools.check(`${words}: the list to take along has what is wanted and what is due, and nothing else`,
		along.includes('two cylinders') && along.includes('JK-1') && !along.includes('Bags to hand in') && await page.locator('form[method=post]').count() === 0, along);
	await page.goto(`${house.origin}/winter`);

	// another wrote meanwhile: what was ticked is not what stands there
	house.ask('amend', 'LJ-3', '--to-buy', 'three');
	await page.getByRole('checkbox', { name: 'LJ-3 bought' }).check();
	await page.getByRole('button', { name: 'Bought: take off what is ticked' }).click();
	tools.check(`${words}: another's words are not taken off unseen`,
		(await page.locator('main').innerText()).includes('on the list now: three') && house.json('show', 'LJ-3').to_buy === 'three');
	await page.getByRole('checkbox', { name: 'LJ-3 bought' }).check();
	await page.getByRole('button', { name: 'Bought: take off what is ticked' }).click();
	await page.getByRole('status').first().waitFor();
	tools.check(`${words}: bought, it is off the list`, house.json('show', 'LJ-3').to_buy === null && await wanted().count() === 0);
}

// Two browsers on one piece: the second is told what the first wrote, and what both typed stands there before it is saved.
async function twoBrowsers(tools, house) {
	const [first, second] = [await tools.window(house), await tools.window(house, { viewport: { width: 360, height: 740 } })];
	for (const page of [first, second]) {
		await page.goto(`${house.origin}/mend/RM-1`);
	}
	const type = async (page, place) => {
		await page.getByLabel('Place').fill(place);
		await page.getByRole('button', { name: 'See what it changes' }).click();
	};
	await type(first, 'saloon');
	await first.getByRole('button', { name: 'Save:' }).click();
	await first.getByRole('status').first().waitFor();
	await type(second, 'lazarette');
	const told = await second.locator('main').innerText();
	tools.check('two browsers: the second is told what the first wrote meanwhile', told.includes('Another wrote about it since you saw it') &&
		told.includes('another wrote saloon meanwhile; you typed lazarette'), told);
	tools.check('two browsers: nothing is overwritten unseen', house.json('show', 'RM-1').place === 'saloon');
	await second.getByRole('button', { name: 'Save:' }).click();
	await second.getByRole('status').first().waitFor();
	tools.check('two browsers: who still wants it, having seen it, has it', house.json('show', 'RM-1').place === 'lazarette');
	tools.away = tools.away.filter(words => !words.includes('status of 409'));
}

export default async function locker(tools) {
	const house = await tools.house('owner');
	await twoBrowsers(tools, house);
	await findAsOneTypes(tools, house);
	await actsOfACard(tools, house, { javaScriptEnabled: false, viewport: { width: 360, height: 740 } }, 'locker');
	await listToBuy(tools, house, { javaScriptEnabled: false, viewport: { width: 360, height: 740 } }, 'list to buy');
}
