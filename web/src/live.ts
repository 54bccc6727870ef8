import "./live.css";

interface View { lit: boolean; line?: string; rest?: string[] }

/** Longest silence of the program after which the cockpit page goes dark by itself, ms. */
const DARK_AFTER = 2500;
/** Longest silence after which a page says that what stands there is old, ms. */
const OLD_AFTER = 6000;

/** Pages of a flight that goes on: what happened comes as events, and the page asks for what it shows. */
export function live(): void {
  const cockpit = document.querySelector<HTMLElement>("[data-cockpit]");
  if (cockpit) showInCockpit(cockpit);
  const page = document.querySelector<HTMLElement>("[data-live]");
  if (page) followOnPage(page);
}

/** Dark unless the program says, again and again, that it may be lit. */
function showInCockpit(main: HTMLElement): void {
  const line = main.querySelector<HTMLElement>("[data-line]")!;
  const onGround = main.querySelector<HTMLElement>("[data-on-ground]")!;
  const rest = main.querySelector<HTMLElement>("[data-rest]")!;
  let timer = 0;
  const dark = () => {
    main.hidden = true;
    line.textContent = "";
    onGround.hidden = true;
    rest.replaceChildren();
  };
  const events = new EventSource(main.dataset["cockpit"]!);
  events.addEventListener("view", e => {
    const view = JSON.parse((e as MessageEvent<string>).data) as View;
    window.clearTimeout(timer);
    if (!view.lit) return dark();
    line.textContent = view.line ?? "";
    onGround.hidden = !view.rest;
    rest.replaceChildren(...(view.rest ?? []).map(sentence => Object.assign(document.createElement("li"), { textContent: sentence })));
    main.hidden = false;
    timer = window.setTimeout(dark, DARK_AFTER);
  });
  events.addEventListener("error", dark);
}

function followOnPage(page: HTMLElement): void {
  const part = page.querySelector<HTMLElement>("[data-live-part]")!;
  const silent = page.querySelector<HTMLElement>("[data-silent]")!;
  let old = 0, asking = false, again = false, asked = 0;
  const ask = async () => {
    if (asking) { again = true; return; }
    asking = true;
    do {
      again = false;
      asked = performance.now();
      const answer = await fetch(page.dataset["part"]!).catch(() => null);
      if (answer?.ok) {
        part.innerHTML = await answer.text();
        part.dataset["shownAt"] = String(Date.now());
      }
    } while (again);
    asking = false;
  };
  const events = new EventSource(page.dataset["events"]!);
  events.addEventListener("happened", e => {
    window.clearTimeout(old);
    silent.hidden = true;
    old = window.setTimeout(() => { silent.hidden = false; }, OLD_AFTER);
    // A sign of life alone only renews ages and clocks, now and then.
    if ((e as MessageEvent<string>).data !== "life" || performance.now() - asked > 5000) void ask();
  });
}
