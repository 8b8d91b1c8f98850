// @ts-check
// What the accessibility tree does not say by itself: which error belongs to which field.

/** Errors that can be read and that their control does not name. */
function untiedErrors() {
  return [...stage().querySelectorAll(".wrong")].filter((wrong) => isVisible(wrong) && plain(wrong.textContent ?? "")).flatMap((wrong) => {
    const beside = [wrong.previousElementSibling, wrong.nextElementSibling].find((el) => el?.matches("label.field"));
    const field = wrong.closest(".field") ?? beside;
    const control = field?.querySelector("input, textarea, select, [role=radiogroup], button");
    if (!control) return [];
    const ids = ["aria-describedby", "aria-errormessage"].flatMap((name) => (control.getAttribute(name) ?? "").split(/\s+/));
    return wrong.id && ids.includes(wrong.id) ? [] : [`${describe(wrong)} is not tied to ${describe(control)}`];
  });
}
