// Printed tags: the code on each, read from the picture by jsQR, opens its piece on a phone; there is none
// where no phone can come.
import { createRequire } from 'node:module';

const reader = createRequire(import.meta.url).resolve('jsqr/dist/jsQR.js');

async function logIn(page) {
	await page.getByLabel('Your name').fill('Orla Finch');
	await page.getByLabel('Your password').fill('four grey geese');
	await page.getByRole('button', { name: 'Log in' }).click();
	await page.waitForLoadState();
}

// What the code in a picture says; null for none. An empty page of another window does the sums.
async function read(bench, picture) {
	return bench.evaluate(async base64 => {
		const image = new Image();
		image.src = `data:image/png;base64,${base64}`;
		await image.decode();
		const canvas = document.createElement('canvas');
		[canvas.width, canvas.height] = [image.naturalWidth, image.naturalHeight];
		const context = canvas.getContext('2d');
		context.drawImage(image, 0, 0);
		const { data } = context.getImageData(0, 0, canvas.width, canvas.height);
		return window.jsQR(data, canvas.width, canvas.height)?.data ?? null;
	}, picture.toString('base64'));
}

async function codes(tools) {
	const house = await tools.quay('owner', [['Orla Finch', 'manage']]);
	const page = await tools.phone();
	await page.goto(house.address);
	await page.getByLabel('Your name').fill('Orla Finch');
	await page.getByLabel('Your password').fill('six grey geese');
	await page.getByRole('button', { name: 'Log in' }).click();
	const field = page.locator('[aria-invalid=true]');
	tools.check('people: a wrong password is told at its field, which has the focus and a finger\'s height',
		await field.evaluate(one => one === document.activeElement && one.name === 'password' && one.offsetHeight >= 44));
	await logIn(page);
	await page.goto(new URL('/shore-papers/tags?vessel=Quillfish', house.address).href);
	const bench = await tools.phone();
	await bench.addScriptTag({ path: reader });
	const ties = page.locator('.tie');
	const said = [];
	for (let i = 0; i < await ties.count(); i++) {
		const tag = await ties.nth(i).locator('.tag').innerText();
		said.push([tag, await read(bench, await ties.nth(i).locator('svg.qr').screenshot())]);
	}
	const wrong = said.filter(([tag, words]) => words !== new URL(`/locker/${encodeURIComponent(tag)}`, house.address).href);
	tools.check('tags: the code on each printed tag is the address of its piece', said.length > 8 && wrong.length === 0, wrong.join('; '));
	const phone = await tools.phone();
	await phone.goto(said.find(([tag]) => tag === 'DB-1')[1]);
	await logIn(phone);
	tools.check('tags: a phone that reads it logs in and sees that piece',
		(await phone.locator('#piece').innerText()).startsWith('DB-1'), phone.url());
}

export default async function tags(tools) {
	await codes(tools);
	const alone = await tools.house('fleet');
	const page = await tools.window(alone);
	await page.goto(`${alone.origin}/shore-papers/tags?vessel=Amberjay`);
	tools.check('tags: a page that no phone can reach prints none', await page.locator('.tie').count() > 8 &&
		await page.locator('svg.qr').count() === 0);
	tools.away = tools.away.filter(words => !words.includes('status of 404')); // a printed page has no icon
}
