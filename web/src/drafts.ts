/**
 * Keeps what is typed into a form on this device until the program has taken it, even when the page is closed or the program stops.
 * A form names its draft in data-draft-key. With a program that doesn't answer, the page and what is typed stay as they are.
 */
export function drafts(): void {
  for (const form of document.querySelectorAll<HTMLFormElement>("form[data-draft-key]")) keep(form);
}

type Field = HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement;

function keep(form: HTMLFormElement): void {
  const key = `draft ${form.dataset["draftKey"]}`;
  const note = form.querySelector<HTMLElement>("[data-draft]");
  const fields = [...form.querySelectorAll<Field>("input:not([type=hidden]):not([type=file]), select, textarea")];
  const asServed = JSON.stringify(values(fields));
  const draft = read(key);
  for (const field of fields) if (draft[field.name] !== undefined) put(field, draft[field.name]!);
  const changed = () => {
    const now = JSON.stringify(values(fields));
    if (now === asServed) localStorage.removeItem(key);
    else localStorage.setItem(key, now);
    if (note) note.hidden = now === asServed;
  };
  changed();
  if (note && !note.hidden) form.closest("details")?.setAttribute("open", "");
  form.addEventListener("input", changed);
  form.addEventListener("submit", (e) => {
    e.preventDefault();
    void send(form, key, e.submitter);
  });
}

/** Sends a form. Taken: the page that the program names. Refused: the same form with what is wrong in it. No answer: everything stays. */
async function send(form: HTMLFormElement, key: string, by: HTMLElement | null): Promise<void> {
  const body = new URLSearchParams();
  for (const [name, value] of new FormData(form, by)) if (typeof value === "string") body.append(name, value);
  form.setAttribute("aria-busy", "true");
  try {
    const answer = await fetch(form.action, { method: "POST", body });
    if (answer.redirected) {
      localStorage.removeItem(key);
      goTo(answer.url);
      return;
    }
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    const again = [...page.querySelectorAll<HTMLFormElement>("form[data-draft-key]")].find((f) => f.dataset["draftKey"] === form.dataset["draftKey"]);
    if (answer.status === 422 && again) {
      localStorage.removeItem(key);
      form.replaceWith(again);
      keep(again);
      again.querySelector<HTMLElement>("[aria-invalid]")?.focus();
      return;
    }
    const said = page.querySelector("[data-message], .notice")?.textContent;
    say(form, said ? `Not taken: ${said}` : `Not taken: the program answered ${answer.status}. What you typed is kept on this device; reload the page and send it again.`);
  } catch {
    say(form, "Not sent: the program does not answer. What you typed is kept on this device. Start the program again, then send it.");
  } finally {
    form.removeAttribute("aria-busy");
  }
}

// The same address again would only move to its fragment.
function goTo(address: string): void {
  if (address === location.href) location.reload();
  else location.assign(address);
}

function say(form: HTMLFormElement, what: string): void {
  let place = form.querySelector<HTMLElement>("[data-not-sent]");
  if (!place) {
    place = document.createElement("p");
    place.className = "mistake";
    place.setAttribute("role", "alert");
    place.dataset["notSent"] = "";
    form.append(place);
  }
  place.textContent = what;
  place.hidden = false;
}

function read(key: string): Record<string, string> {
  try {
    return JSON.parse(localStorage.getItem(key) ?? "{}") as Record<string, string>;
  } catch {
    return {};
  }
}

function put(field: Field, value: string): void {
  if (field instanceof HTMLInputElement && field.type === "checkbox") field.checked = value === "on";
  else field.value = value;
}

function values(fields: Field[]): Record<string, string> {
  return Object.fromEntries(fields.map((f) => [f.name, f instanceof HTMLInputElement && f.type === "checkbox" ? (f.checked ? "on" : "") : f.value]));
}
