const boxes = ".wide-table, .picture-box, .scroll, .card-paper, .sheet pre";

/** Tables and pictures wider than their box say so, and only then. */
export function scrollSign(): void {
  const sized = new ResizeObserver((entries) => { for (const entry of entries) sign(entry.target); });
  const known = new WeakSet<Element>();
  const find = () => {
    for (const box of document.querySelectorAll(boxes)) {
      sign(box);
      if (known.has(box)) continue;
      known.add(box);
      sized.observe(box);
    }
  };
  find();
  let waiting = 0;
  new MutationObserver(() => { waiting ||= requestAnimationFrame(() => { waiting = 0; find(); }); }).observe(document.body, { childList: true, subtree: true });
  // What is folded away has no width until it is opened.
  document.addEventListener("toggle", find, true);
}

function sign(box: Element): void {
  // The line at the edge takes 4 pixels away.
  const edge = box.hasAttribute("data-scrolls") ? 5 : 1;
  box.toggleAttribute("data-scrolls", box.scrollWidth > box.clientWidth + edge);
}
