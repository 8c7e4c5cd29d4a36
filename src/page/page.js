/* What makes a page of becket handier; nothing depends on it. */
"use strict";

/* "3 of 8 packed" counts as one ticks. */
for (const tally of document.querySelectorAll("form .tally")) {
	const form = tally.closest("form");
	const ticks = form.querySelectorAll('input[name^="packed."]');
	form.addEventListener("change", () => {
		const packed = [...ticks].filter(tick => tick.checked).length;
		tally.textContent = `${packed} of ${ticks.length} packed`;
	});
}

/* What was reckoned is of what was typed then: a button that writes it waits until it is reckoned
 * again, and says so. The server holds to that in any case. */
for (const change of document.querySelectorAll("form .change")) {
	const form = change.closest("form");
	form.addEventListener("input", event => {
		const write = change.querySelector("button.do");
		if (change.contains(event.target) || write === null || write.value === "look") {
			return;
		}
		write.textContent = "Reckon again: something was changed since";
		write.value = "look";
	});
}
