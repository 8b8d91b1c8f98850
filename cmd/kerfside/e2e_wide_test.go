package main

import (
	"fmt"
	"testing"

	"kerfside/cmd/internal/browser"
)

// widerThanScreen lists what makes a page wider than the screen, and says when
// the button for the worst day is not on it. A phone shows such a page smaller, and
// then says that its window is wider too.
const widerThanScreen = `((width) => {
	const found = [];
	if (document.documentElement.scrollWidth > width) {
		found.push("the page is " + document.documentElement.scrollWidth + " px wide");
		for (const el of document.querySelectorAll("body *")) {
			const { right, width: own } = el.getBoundingClientRect();
			if (right > width + 1 && own && !el.closest("svg, dialog, .scroll") && ![...el.children].some((c) => c.getBoundingClientRect().right > width + 1)) found.push("<" + el.localName + " " + el.className + "> " + el.textContent.trim().slice(0, 40) + " ends at " + Math.round(right));
		}
	}
	const worst = document.querySelector(".strip__button--worst").getBoundingClientRect();
	if (worst.right > width + 1 || worst.left < 0 || worst.top < 0 || worst.width < 56) found.push("the button for the worst day is not on the screen");
	return found.slice(0, 6);
})(%d)`

// TestBrowserLargeTextFits opens every page with text at 200 % and the worst day
// in reach: nothing has to be scrolled sideways.
func TestBrowserLargeTextFits(t *testing.T) {
	t.Parallel()
	ctx, d := atPages(t, journeyLimit)
	d.ask(ctx, t, `(document.documentElement.style.fontSize = "200%", true)`, new(bool))
	d.onPages(ctx, t, func(screen browser.Screen) string { return fmt.Sprintf(widerThanScreen, screen.Width) })
}
