/**
 * Expressions that run inside the page, as text: the project's types know no document, so that no room can use one.
 */

/** The ids of figures that are not drawn: no picture, no size, no line in it, or the plot library's style not at work. */
export const undrawn = `[...document.querySelectorAll(".plot")].filter((plot) => {
  const picture = plot.querySelector("svg.main-svg");
  if (picture === null) return true;
  const { width, height } = picture.getBoundingClientRect();
  const lines = [...plot.querySelectorAll(".scatterlayer path.js-line")];
  const points = plot.querySelectorAll(".scatterlayer path.point");
  const drawn = points.length > 2 || lines.some((line) => (line.getAttribute("d") ?? "").length > 20);
  return !(width > 200 && height > 100 && drawn && getComputedStyle(picture).position === "absolute");
}).map((plot) => plot.id)`;

export const sidewaysScrollPx = `document.documentElement.scrollWidth - document.documentElement.clientWidth`;

/** How many plots reach beyond the right edge of the window. */
export const plotsBeyondWindow = `[...document.querySelectorAll(".plot svg.main-svg")].filter(
  (picture) => picture.getBoundingClientRect().right > document.documentElement.clientWidth,
).length`;

/** Pairs of names in one plot whose letters lie on each other, and names cut off by the picture's edge. */
export const namesInTheWay = `[...document.querySelectorAll(".plot")].flatMap((plot) => {
  const frame = plot.querySelector("svg.main-svg").getBoundingClientRect();
  const names = [...plot.querySelectorAll(".annotation text")].map((text) => {
    const { left, right, top, bottom } = text.getBoundingClientRect();
    return { said: plot.id + ": " + text.textContent, left, right, top: top + 2, bottom: bottom - 2 };
  });
  const cut = names.filter((one) => one.left < frame.left - 1 || one.right > frame.right + 1 || one.top < frame.top - 1);
  const pairs = names.flatMap((one, index) => names.slice(index + 1).filter((other) =>
    one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom,
  ).map((other) => one.said + " / " + other.said));
  return [...cut.map(({ said }) => said), ...pairs];
})`;

export const plotWidthsPx = `[...document.querySelectorAll(".plot svg.main-svg:first-child")].map(
  (picture) => picture.getBoundingClientRect().width,
)`;

export const linksElsewhere = `[...document.querySelectorAll("a")].map(
  (link) => link.getAttribute("href") ?? "",
).filter((address) => !address.startsWith("#"))`;

export const reportViolations = `addEventListener("securitypolicyviolation", (event) => {
  console.error("policy: " + event.violatedDirective + " " + event.sample);
});`;

/** Notes, when the page is about to be printed, how wide its widest plot is and how many tables stay folded. */
export const notePrinting = `addEventListener("beforeprint", () => {
  const pictures = [...document.querySelectorAll(".plot svg.main-svg")];
  globalThis.printed = {
    widestPx: Math.max(...pictures.map((picture) => Number(picture.getAttribute("width")))),
    folded: document.querySelectorAll("details:not([open])").length,
  };
});`;

export const printed = `globalThis.printed`;

/** Whether anything hostile ran: each such text in the fixtures would set this name. */
export const broken = `"broken" in globalThis`;
