// By the Tab key over whole pages: it begins at the link past the index, goes down the page as one reads it, shows
// where it is, and comes out at the end again. And what a screen reader is told of a page.

const OWNERS = ['/winter', '/locker/LR-1', '/done/LJ-6'];
const FLEETS = ['/saturday?on=2027-04-03&boat=Amberjay&line=pm-beacon'];
const MORE = ['/list', '/back', '/locker', '/saturday', '/years', '/reminders', '/reminders/choices', '/safe', '/mend/LJ-1', '/new?count=10', '/booking',
	'/safe/1', '/sheets', '/sheet/practice', '/gone/FL-1', '/move/LJ-1', '/buy/LJ-1'];

// What has the focus: where it stands, and whether it shows.
function focused() {
	const one = document.activeElement;
	if (one === document.body) {
		return null;
	}
	const box = one.getBoundingClientRect();
	const style = getComputedStyle(one);
	window.met ??= new Map();
	const before = window.met.get(one);
	window.met.set(one, window.met.size);
	return { what: one.outerHTML.slice(0, 90), again: before !== undefined, skip: one.className === 'skip',
		shown: style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2 && box.width > 0 && box.height > 0,
		inside: box.top < innerHeight && box.bottom > 0 && box.left < innerWidth && box.right > 0,
		follows: one.tabIndex === 0 };
}

async function tabThrough(tools, page, place) {
	await page.evaluate(() => { window.met = new Map(); });
	const met = [];
	for (let presses = 0; presses < 400; presses++) {
		await page.keyboard.press('Tab');
		const one = await page.evaluate(focused);
		if (one === null || one.again) {
			break;
		}
		met.push(one);
	}
	const wanted = await page.evaluate(() => {
		const groups = new Set();
		return [...document.querySelectorAll('a[href], button, input, select, textarea, summary, [tabindex="0"]')].filter(one => {
			if (one.tabIndex < 0 || one.disabled || one.type === 'hidden' || !one.checkVisibility({ visibilityProperty: true, contentVisibilityAuto: true })) {
				return false;
			}
			const radio = one.type === 'radio' && `${one.form?.action} ${one.name}`;
			return !radio || (!groups.has(radio) && groups.add(radio));
		}).length;
	});
	const odd = met.filter(one => !one.shown || !one.inside || !one.follows);
	tools.check(`tab: ${place} begins with the link past the index`, met[0]?.skip === true, met[0]?.what);
	tools.check(`tab: ${place} is gone through to its end, in its order, each thing once`, met.length === wanted, `${met.length} of ${wanted}; last ${met.at(-1)?.what}`);
	tools.check(`tab: ${place} shows where one is`, odd.length === 0, odd.slice(0, 4).map(one => JSON.stringify(one)).join(' | '));
}

async function through(tools, house, places) {
	const page = await tools.window(house);
	for (const place of places) {
		await page.goto(house.origin + place);
		await tabThrough(tools, page, place);
	}
	tools.away = tools.away.filter(words => !words.includes('status of 404'));
}

// What a screen reader is told, as the browser's own tree has it: each thing to press or fill has a name of its
// own, headings go down one at a time, a tick and a cell say whole what they are of.
async function named(tools, house, place, wanted) {
	const page = await tools.window(house, { viewport: { width: 360, height: 740 } });
	await page.goto(house.origin + place);
	const told = await page.locator('body').ariaSnapshot();
	const bare = told.split('\n').filter(line => /^ *- (link|button|checkbox|radio|textbox|combobox|slider|region|table|img)(:| \[|$)/.test(line) && !/table:$/.test(line));
	tools.check(`names: ${place} has nothing to press or fill without a name`, bare.length === 0, bare.join(' | '));
	const levels = [...told.matchAll(/\[level=(\d)\]/g)].map(([, level]) => Number(level));
	tools.check(`names: ${place} has one heading over all, and passes over no level`, levels.filter(level => level === 1).length === 1 &&
		levels.every((level, i) => i === 0 ? level === 1 : level <= levels[i - 1] + 1), levels.join());
	for (const [role, name] of wanted) {
		tools.check(`names: ${place} has the ${role} "${name}"`, await page.getByRole(role, { name, exact: true }).count() > 0);
	}
	await page.close();
}

// The slider by the arrow keys: where it stands is seen and told before it is looked at. 3 Apr 2027 is a Saturday.
async function slid(tools, house) {
	const page = await tools.window(house);
	await page.goto(`${house.origin}/saturday?on=2027-04-03`);
	const slider = page.getByRole('slider');
	await slider.focus();
	for (let day = 0; day < 7; day++) {
		await page.keyboard.press('ArrowRight');
	}
	const [seen, told] = [await page.locator('.slide p b').innerText(), await slider.getAttribute('aria-valuetext')];
	tools.check('slider: moved by keys, its day is seen and told', seen === 'Saturday 10 Apr 2027' && told === seen, `${seen}; ${told}`);
	await page.getByRole('button', { name: 'Look at this day' }).press('Enter');
	await page.waitForLoadState();
	tools.check('slider: and is the day looked at', await page.locator('.slide p b').innerText() === seen, await page.locator('.slide p b').innerText());
	await page.close();
}

export default async function tabs(tools) {
	const owner = await tools.house('owner');
	owner.ask('land', 'DB-1', 'LJ-2', '--to', 'Holm Quay Safety Service', '--on', '2026-11-25');
	await named(tools, owner, '/winter', [['navigation', 'Pages of the book'], ['region', 'Holm Quay Safety Service'],
		['checkbox', 'LR-1 packed: liferaft in a canister']]);
	await named(tools, owner, '/locker/LR-1', [['region', 'Records of LR-1'], ['heading', 'LR-1 liferaft in a canister, 6-person raft']]);
	await through(tools, owner, [...OWNERS, ...(tools.whole ? MORE : [])]);
	const fleet = await tools.house('fleet');
	await named(tools, fleet, FLEETS[0], [['slider', 'Day looked at'], ['cell', 'Amberjay, EPIRB: 0 of 1, short of 1'], ['region', 'Boats and needs']]);
	await slid(tools, fleet);
	await through(tools, fleet, [...FLEETS, ...(tools.whole ? MORE.filter(place => !/[A-Z]{2}-\d/.test(place)) : [])]);
}
