import "./why.css";

/** Opens the working of a figure in a dialog; a link inside it shows the next one there. Without this script each is a page. */
export function why(): void {
  let dialog: HTMLDialogElement | undefined;
  let body: HTMLElement;
  let heading: HTMLElement;
  let back: HTMLButtonElement;
  const path: string[] = [];
  let request = 0;

  const make = () => {
    const made = document.createElement("dialog");
    made.className = "why-dialog";
    made.setAttribute("aria-labelledby", "why-heading");
    heading = document.createElement("h2");
    heading.id = "why-heading";
    heading.tabIndex = -1;
    body = document.createElement("div");
    const row = document.createElement("p");
    row.className = "why-buttons";
    back = button("Back", () => { path.pop(); const last = path.pop(); if (last) void show(last); });
    row.append(back, button("Close", () => made.close()));
    made.append(heading, body, row);
    made.addEventListener("close", () => { path.length = 0; request++; });
    made.addEventListener("click", (e) => { if (e.target === made) made.close(); });
    document.body.append(made);
    return made;
  };

  const show = async (address: string) => {
    const mine = ++request;
    const part = new URL(address, location.href);
    part.searchParams.set("fragment", "1");
    try {
      const answer = await fetch(part);
      const text = await answer.text();
      if (mine !== request) return;
      if (!answer.ok) { location.href = address; return; }
      dialog ??= make();
      path.push(address);
      body.innerHTML = text;
      const name = body.querySelector<HTMLElement>("[data-why-name]");
      heading.textContent = name?.textContent ?? "Why";
      name?.remove();
      back.hidden = path.length < 2;
      if (!dialog.open) dialog.showModal();
      dialog.scrollTop = 0;
      heading.focus();
    } catch {
      if (mine === request) location.href = address;
    }
  };

  document.addEventListener("click", (event) => {
    if (event.defaultPrevented || event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
    const link = event.target instanceof Element ? event.target.closest<HTMLAnchorElement>("a[data-why]") : null;
    if (!link) return;
    event.preventDefault();
    void show(link.href);
  });
}

function button(text: string, press: () => void): HTMLButtonElement {
  const made = document.createElement("button");
  made.type = "button";
  made.textContent = text;
  made.addEventListener("click", press);
  return made;
}
