/* Draws the figures that the page carries as data. Everything they show also stands in words and tables. */
(() => {
  "use strict";

  const { figures } = JSON.parse(document.getElementById("report-data").textContent);
  const narrowPx = 640;
  const printPx = 680;
  const config = {
    displayModeBar: false,
    displaylogo: false,
    showSendToCloud: false,
    responsive: false,
    doubleClick: "reset",
  };

  /** On a narrow page the key above the plot names the lines, and a finger that drags means to scroll. */
  function layoutFor(figure, widthPx) {
    const layout = structuredClone(figure.layout);
    layout.width = widthPx;
    layout.height = figure.heightPx;
    const narrow = widthPx < narrowPx;
    const absent = narrow ? ["line-label", "wide-name"] : ["narrow-name"];
    layout.annotations = layout.annotations.filter((note) => !absent.includes(note.name));
    if (narrow) {
      layout.margin.r = 12;
      layout.font.size = 11;
      layout.dragmode = false;
    } else if (!layout.annotations.some((note) => note.name === "line-label")) {
      layout.margin.r = 12;
    }
    return layout;
  }

  function draw(figure, widthPx) {
    const place = document.getElementById(figure.id);
    if (place === null) return;
    const width = Math.floor(widthPx ?? place.clientWidth);
    window.Plotly.react(place, figure.data, layoutFor(figure, width), config);
  }

  document.documentElement.classList.add("drawing");
  // One after the other, so that a slow device can scroll and be read meanwhile.
  (function drawFrom(index) {
    if (index === figures.length) {
      document.documentElement.classList.add("drawn");
      return;
    }
    draw(figures[index]);
    setTimeout(drawFrom, 0, index + 1);
  })(0);

  // What a mark or a bar says is shown under its picture, so that a finger finds it too.
  for (const place of document.querySelectorAll(".says")) {
    place.hidden = false;
    place.textContent = "Point at one, or touch it, for its figures.";
    for (const event of ["pointerover", "click"]) {
      place.parentElement.addEventListener(event, ({ target }) => {
        const said = target.closest("[data-says]");
        if (said !== null) place.textContent = said.dataset.says;
      });
    }
  }

  let widthPx = document.documentElement.clientWidth;
  let waiting = 0;
  window.addEventListener("resize", () => {
    cancelAnimationFrame(waiting);
    waiting = requestAnimationFrame(() => {
      if (document.documentElement.clientWidth === widthPx) return;
      widthPx = document.documentElement.clientWidth;
      for (const figure of figures) draw(figure);
    });
  });

  // A plot keeps its width on paper unless it is told the paper's; folded tables print only when open.
  const opened = [];
  window.addEventListener("beforeprint", () => {
    for (const figure of figures) draw(figure, printPx);
    for (const details of document.querySelectorAll("details:not([open])")) {
      details.open = true;
      opened.push(details);
    }
  });
  window.addEventListener("afterprint", () => {
    for (const figure of figures) draw(figure);
    for (const details of opened.splice(0)) details.open = false;
  });
})();
