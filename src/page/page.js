/* Makes the pages easier to use; they work without it. */
"use strict";

/* "3 of 8 packed" is counted while boxes are ticked. */
for (const tally of document.querySelectorAll("form .tally")) {
	const form = tally.closest("form");
	const ticks = form.querySelectorAll('input[name^="packed."]');
	form.addEventListener("change", () => {
		const packed = [...ticks].filter(tick => tick.checked).length;
		tally.textContent = `${packed} of ${ticks.length} packed`;
	});
}

/* After a field was changed, the effect that is shown is out of date: the button that saves
 * first asks to work it out again, and says so. The server insists on that in any case. */
for (const change of document.querySelectorAll("form .change")) {
	const form = change.closest("form");
	form.addEventListener("input", event => {
		const write = change.querySelector("button.do");
		if (change.contains(event.target) || write === null || write.name === "look" || write.value === "look") {
			return;
		}
		write.textContent = "Reckon again: something was changed since";
		write.value = "look";
	});
}

/* A bag's day can be moved by dragging its tag on the strip. Dropped on a day on which the
 * station takes gear in, it acts as if that day had been typed: what it changes is shown
 * before it is kept. */
const DAY = 86400000;

function nearestOpen(open, wanted) {
	for (let away = 0; away < open.length; away++) {
		for (const day of [wanted - away, wanted + away]) {
			if (open[day] === "1") {
				return day;
			}
		}
	}
	return -1;
}

for (const lane of document.querySelectorAll(".lane[data-bag]")) {
	const { bag, first, handIn, open } = lane.dataset;
	const tag = lane.querySelector(".hold");
	const field = document.getElementById(`day-${bag}`);
	if (tag === null || field === null) {
		continue;
	}
	const told = lane.querySelector(".name").appendChild(document.createElement("span"));
	told.className = "told";
	const from = (Date.parse(handIn) - Date.parse(first)) / DAY;
	const days = open.length - 1;
	let held = null;
	let day = from;
	lane.classList.add("drags");
	tag.addEventListener("pointerdown", event => {
		held = event.clientX;
		tag.setPointerCapture(event.pointerId);
		event.preventDefault();
	});
	tag.addEventListener("pointermove", event => {
		if (held === null) {
			return;
		}
		const wide = tag.ownerSVGElement.getBoundingClientRect().width;
		const found = nearestOpen(open, from + Math.round((event.clientX - held) / wide * days));
		day = found < 0 ? from : found;
		tag.setAttribute("transform", `translate(${(day - from) / days * wide})`);
		told.textContent = new Date(Date.parse(first) + day * DAY).toLocaleDateString("en-GB",
			{ weekday: "short", day: "numeric", month: "short", timeZone: "UTC" });
	});
	tag.addEventListener("pointercancel", () => {
		held = null;
		tag.removeAttribute("transform");
		told.textContent = "";
	});
	tag.addEventListener("pointerup", () => {
		held = null;
		if (day !== from) {
			field.value = new Date(Date.parse(first) + day * DAY).toISOString().slice(0, 10);
			field.form.requestSubmit(field.form.querySelector('button[value="look"]'));
		}
	});
}

/* The day of the slider while it is moved, as text and for screen readers. */
const slider = document.querySelector('.slide input[type="range"]');

if (slider !== null) {
	const told = slider.form.querySelector("p b");
	slider.addEventListener("input", () => {
		const day = new Date(Date.parse(slider.form.elements.first.value) + slider.value * DAY);
		told.textContent = day.toLocaleDateString("en-GB", { weekday: "long", day: "numeric", month: "short",
			year: "numeric", timeZone: "UTC" }).replace(",", "").replace("Sept", "Sep");
		slider.setAttribute("aria-valuetext", told.textContent);
	});
}

/* While words are typed, the locker's rows that do not contain them are hidden; the return
 * key asks the book, which searches more. Rows that the book found for its words stay until
 * those words are removed. */
const looked = document.querySelector('main form[role="search"] input[name="q"]');

if (looked !== null && looked.value === "") {
	const told = document.createElement("p");
	told.className = "small soft";
	told.setAttribute("role", "status");
	looked.form.append(told);
	const rows = [...document.querySelectorAll("main .rows > .row:not(.open)")];
	looked.addEventListener("input", () => {
		const words = looked.value.toLowerCase().split(/\s+/).filter(word => word !== "");
		let found = 0;
		for (const row of rows) {
			const text = `${row.textContent} ${row.dataset.also ?? ""}`.toLowerCase();
			row.hidden = !words.every(word => text.includes(word));
			found += row.hidden ? 0 : 1;
		}
		for (const group of document.querySelectorAll("main .entry:has(> .rows)")) {
			group.hidden = group.querySelector(".rows > .row:not([hidden])") === null;
		}
		told.textContent = words.length === 0 ? "" : `${found} of ${rows.length} here have that; the return key looks further.`;
	});
}
