// Package journey runs end-to-end tests that are written as text. A journey
// uses the real app in real browsers; "offline" closes the real server. The same
// script runs in every engine that can do what it asks: "slow" and the key of a
// headset take Chromium.
//
// # Format
//
// One step a line: a verb, then its text. Blank lines and lines that begin with
// # are left out. Where a step needs two texts they stand on both sides of
// " = ". Every step waits until it can be done or what it looks for is there,
// and fails at the deadline; there is no step that only waits for time to pass.
//
//	# The plan follows the plate, without a network as well.
//	open /cut
//	enter Thickness = 1/4 in
//	see Set 45 A
//	offline
//	kill browser
//	start browser
//	open /cut
//	see 1/4 in
//	online
//	wait synced
//
// # Verbs
//
//	device A           go on with this phone; the first use makes it (a profile of its own). A is there from the start
//	tab 2              go on in this tab of the phone; the first use opens it. 1 is there from the start
//	open /path         load a page of the app
//	join member        make an invitation of that role, open its link, join, and be a phone of the crew
//	at /path           the address is this path
//	lit Cut            that place is the one that is lit in the bar
//	see TEXT           TEXT can be read somewhere on the page, white space counting as one space
//	gone TEXT          TEXT can be read nowhere on the page
//	lands TEXT         the heading TEXT stands in the upper half of the screen, and nothing covers it
//	burns 2            the arc burns, and the clock on its button has come to that many seconds
//	picture TEXT       a picture shows whose text equivalent has TEXT in it
//	tap NAME           touch a button, link, field or label by its name
//	hold NAME = 1s     touch it and keep the finger on it for that long
//	touch NAME = -37.5 0   touch it so far right and down from its middle, in hundredths of its width
//	photo NAME = bore 116 x 106 turned 30   give a control that takes files a picture of a tip: 2400 x 1800
//	                   pixels, a shank from 300 to 600, at 1500, 900 a bore with these axes; its file
//	                   says "taken at 54.97 N 1.61 W"
//	enter FIELD = 3/8 in   open the number pad of a field and press the keys
//	type FIELD = TEXT  put TEXT into a text field, in place of what was there
//	choose FIELD = OPTION  choose from a list or a group of choices
//	holds FIELD = TEXT the field shows exactly TEXT
//	key Enter          press a key of a keyboard or a headset
//	reach NAME         press Tab until the keyboard is at that control, and it shows
//	back, reload       as the browser's own buttons
//	unpicked           no choice that can be seen is picked, and no tick set
//	upfront NAME       that control, or what says TEXT, stands whole on the first screenful, and nothing covers it
//	in view NAME       the same as the page lies now, scrolled or not
//	count taps         begin to count touches anew, keys of the number pad among them
//	at most 5 taps     there were no more of them since
//	unkept TEXT        nothing that the phone's databases keep has the bytes of TEXT in it
//	take CODE = @ref   remember what can be read there; later steps write it as $CODE
//	offline, online    close the server; open it again, same port and database
//	full               this page's phone has no room left, until the page is loaded anew
//	let through        what a journey of testdata/e2e/held has its server hold back comes
//	kill browser       end the phone's browser at once, as without battery
//	start browser      start it again on the same profile; its tabs are lost
//	wait offline       the app is kept on the phone and would start without a network
//	wait synced        no entry and no picture of this phone waits for the server any more
//	clock 65           the phone's clock is that many minutes ahead from here on; "clock 0" before the
//	                   first page lets what that page keeps of its clock move as well
//	equal A B          both phones sync until they hold the same state
//	look night         the system prefers dark; "look sun" light
//	size 320x568       another screen, in CSS pixels
//	text 200           text at 200 % of its normal size
//	slow 4             the page's main thread four times slower
//	shot NAME          keep a picture
//	screen NAME        shot, axe, targets and contrast in one
//	axe                axe-core finds nothing: WCAG 2.2 A and AA, and contrast as AAA
//	targets            every control is big enough for a glove, nothing is cut off or covered
//	contrast           all text stands out 7:1 or more
//	tree               a screen reader is told all it needs, in words. Only Chromium tells: others pass it over
//	expect TEXT        an error with TEXT on the console is right, and has to come before the end
//
// A NAME is what a person would call a control: its label or what is written
// on it. The best match counts: the whole name, the whole name in other case,
// its beginning, any words in it. Two equally good matches are an error; "NAME
// #2" takes the second. "@name" takes the control whose data-ref or
// data-action is name. While a modal dialog is open, only its controls count.
//
// What screen, axe, targets and contrast find fails a journey at its end; all
// else ends it at once. A journey also fails when a page or a worker prints an error, throws what
// nobody catches, or opens a dialog of the browser. Requests that fail because
// the journey closed the server are no such errors.
//
// # What a journey relies on
//
// The number pad is a modal dialog with its keys under data-ref="keys", those
// of units under data-ref="units" (each with its data-unit), and a control with
// data-action="done". Some things cannot be read on the pages, so the global
// kerfside.journal tells them: state, with unsent (entries that wait for the
// server) and onServer; stateHash(), a promise of {hash}, equal for equal
// states; and syncNow(). kerfside.pictures() is a promise of how many pictures
// wait for the server. Once the app would start without a network, the page's
// html element has data-offline="ready".
package journey
