import "./job-form.css";

interface Answer {
  revision: number;
  listsMoved: string | null;
  fields: { path: string; typed: string; unit: string; mistake: string }[];
  conflicts: { path: string; now: string }[];
  parts: { name: string; wrong: number }[];
  needs: string;
}

type Entry = HTMLInputElement | HTMLSelectElement;

/** Saves each field as it is typed; what the program did not take yet stays in the browser and is sent again. */
export function jobForm(): void {
  const zone = document.querySelector<HTMLInputElement>("[data-device-zone]");
  if (zone) zone.value = Intl.DateTimeFormat().resolvedOptions().timeZone;
  // Whoever may read it alone has it with every field off.
  const form = document.querySelector<HTMLFormElement>("[data-job-form]:not([data-job-form=off])");
  if (!form) return;
  const key = `job-${form.dataset["job"]}`;
  const said = form.querySelector<HTMLElement>("[data-saved]")!;
  const revision = form.querySelector<HTMLInputElement>("[data-revision-field]")!;
  const needs = document.querySelector<HTMLElement>("[data-needs]");
  const token = form.querySelector<HTMLInputElement>("input[name=__RequestVerificationToken]")!.value;
  const waiting = new Map<string, string>();
  let sending: Promise<void> | null = null;
  let timer: number | undefined;

  const entry = (path: string) => form.elements.namedItem(`f:${path}`) as Entry | null;
  const shown = (path: string) => form.elements.namedItem(`w:${path}`) as HTMLInputElement | null;
  const box = (path: string) => form.querySelector<HTMLElement>(`[data-field="${CSS.escape(path)}"]`);
  const keep = () => waiting.size > 0 ? localStorage.setItem(key, JSON.stringify([...waiting])) : localStorage.removeItem(key);
  const say = (text: string) => { if (said.textContent !== text) said.textContent = text; };

  const note = (path: string, text: string, more?: HTMLElement[]) => {
    const field = box(path);
    const line = field?.querySelector<HTMLElement>("[data-mistake]");
    if (!field || !line) return;
    line.replaceChildren(text, ...(more ?? []));
    field.classList.toggle("wrong", text.length > 0);
    const input = entry(path);
    if (text) input?.setAttribute("aria-invalid", "true");
    else input?.removeAttribute("aria-invalid");
  };

  const conflict = (path: string, now: string) => {
    const mine = entry(path)?.value ?? "";
    const choice = (label: string, act: () => void) => {
      const button = document.createElement("button");
      button.type = "button";
      button.className = "small";
      button.textContent = label;
      button.addEventListener("click", act);
      return button;
    };
    note(path, `Another window wrote “${now}” here; you typed “${mine}”. `, [
      choice(`Keep “${mine}”`, () => { shown(path)!.value = now; waiting.set(path, mine); note(path, ""); send(); }),
      choice(`Take “${now}”`, () => { shown(path)!.value = now; entry(path)!.value = now; note(path, ""); }),
    ]);
  };

  const take = (answer: Answer, sent: Map<string, string>) => {
    if (answer.listsMoved) {
      say("");
      const line = document.createElement("p");
      line.className = "mistake";
      line.setAttribute("role", "alert");
      const reload = document.createElement("a");
      reload.href = location.href;
      reload.textContent = "Show how it stands now";
      line.append(answer.listsMoved.replace("This is how it stands now; type it again.", ""), reload);
      form.prepend(line);
      waiting.clear();
      keep();
      return;
    }
    revision.value = String(answer.revision);
    const conflicts = new Map(answer.conflicts.map((c) => [c.path, c.now]));
    for (const field of answer.fields) {
      const now = conflicts.get(field.path);
      if (now !== undefined) { conflict(field.path, now); continue; }
      const was = shown(field.path);
      if (was) was.value = field.typed;
      const input = entry(field.path);
      if (input && input.value === sent.get(field.path) && document.activeElement !== input) input.value = field.typed;
      const unit = box(field.path)?.querySelector<HTMLElement>("[data-unit]");
      if (unit) unit.textContent = field.unit;
      note(field.path, field.mistake);
    }
    if (needs) needs.innerHTML = answer.needs;
    for (const part of answer.parts) {
      const link = document.querySelector<HTMLElement>(`.parts a[href$="part=${part.name}"]`);
      const count = link?.querySelector("[data-part-count]");
      if (part.wrong === 0) count?.remove();
      else if (count) count.textContent = ` (${part.wrong} to mend)`;
      else if (link) { const n = document.createElement("span"); n.className = "count"; n.dataset["partCount"] = part.name; n.textContent = ` (${part.wrong} to mend)`; link.append(n); }
    }
    say("Saved.");
  };

  const body = (sent: Map<string, string>) => {
    const data = new FormData();
    data.append("__RequestVerificationToken", token);
    data.append("revision", revision.value);
    data.append("fragment", "1");
    for (const [path, typed] of sent) {
      data.append(`f:${path}`, typed);
      data.append(`w:${path}`, shown(path)?.value ?? "");
    }
    return data;
  };

  const send = (): void => {
    if (sending || waiting.size === 0) return;
    sending = post().finally(() => { sending = null; });
  };

  const post = async (): Promise<void> => {
    const sent = new Map(waiting);
    say("Saving …");
    let again = 0;
    try {
      const answer = await fetch(form.action, { method: "POST", body: body(sent), headers: { "X-Form-Token": token } });
      if (!answer.ok) throw new Error(String(answer.status));
      const said = (await answer.json()) as Answer;
      for (const [path, typed] of sent) if (waiting.get(path) === typed) waiting.delete(path);
      take(said, sent);
    } catch {
      say("Not saved yet: the program does not answer. What you typed is kept here and sent again.");
      again = 2000;
    }
    keep();
    if (waiting.size > 0) timer = window.setTimeout(send, again);
  };

  const changed = (target: EventTarget | null, wait: number) => {
    const input = target as Entry;
    if (!input.name?.startsWith("f:")) return;
    const path = input.name.slice(2);
    if (input.value.trim() === shown(path)?.value) { waiting.delete(path); keep(); return; }
    waiting.set(path, input.value);
    keep();
    window.clearTimeout(timer);
    timer = window.setTimeout(send, wait);
    say("Saving …");
  };

  // What was typed when the page or the program went away.
  const left = localStorage.getItem(key);
  if (left) {
    for (const [path, typed] of JSON.parse(left) as [string, string][]) {
      const input = entry(path);
      if (!input) continue;
      input.value = typed;
      waiting.set(path, typed);
    }
    send();
  }
  form.querySelector<HTMLElement>("[data-save]")?.setAttribute("hidden", "");
  form.addEventListener("input", (e) => changed(e.target, 600));
  form.addEventListener("change", (e) => changed(e.target, 0));
  form.addEventListener("keydown", (e) => {
    if (e.key === "Enter" && e.target instanceof HTMLInputElement && e.target.name.startsWith("f:")) { e.preventDefault(); changed(e.target, 0); }
  });
  // A button of the form sends everything itself.
  form.addEventListener("submit", (e) => {
    window.clearTimeout(timer);
    if (sending) {
      // What is on its way comes first; two at once would look like two windows.
      e.preventDefault();
      void sending.then(() => form.requestSubmit(e.submitter));
      return;
    }
    waiting.clear();
    localStorage.removeItem(key);
  });
  maps(form, (path, value) => {
    const input = entry(path);
    if (!input) return;
    input.value = value;
    changed(input, 0);
  });
}

/** Positions put on a site's map by pointer or keys. */
function maps(form: HTMLFormElement, set: (path: string, value: string) => void): void {
  for (const figure of form.querySelectorAll<HTMLElement>("[data-map]")) {
    const site = figure.dataset["map"]!;
    const svg = figure.querySelector("svg")!;
    const choice = figure.querySelector<HTMLSelectElement>("[data-pick-for]")!;
    const names = new Map<string, string>();
    for (const input of form.querySelectorAll<HTMLInputElement>(`input[name^="f:sites[${site}]"][name$=".latitude"]`)) {
      const group = input.name.slice(2, -".latitude".length);
      const list = /\.([a-zA-Z]+)\[(\d+)\](\.\w+)?$/.exec(group);
      const name = (form.elements.namedItem(`f:${group}.name`) as HTMLInputElement | null)?.value;
      names.set(group, list ? `${name || `${list[1]} ${Number(list[2]) + 1}`}${list[3] ? ` (${list[3].slice(1)})` : ""}` : "this site itself");
    }
    for (const [group, name] of names) choice.add(new Option(name, group));
    if (names.size > 1) choice.selectedIndex = 1;
    figure.querySelector<HTMLElement>("[data-pick-label]")!.hidden = false;
    figure.querySelector<HTMLElement>("[data-pick-hint]")!.hidden = false;
    svg.setAttribute("tabindex", "0");
    const perMetre = Number(svg.dataset["perMetre"]);
    const width = svg.viewBox.baseVal.width;
    const cross = [...svg.querySelectorAll<SVGPathElement>(".pick")];
    let at = { x: width / 2, y: width / 2 };
    const show = () => { for (const line of cross) line.setAttribute("transform", `translate(${at.x + 20} ${at.y + 20})`); };
    const put = async () => {
      const group = choice.value;
      const answer = await fetch(`/jobs/${form.dataset["job"]}/place?site=${site}&east=${(at.x - width / 2) / perMetre}&north=${(width / 2 - at.y) / perMetre}`);
      if (!answer.ok) return;
      const place = (await answer.json()) as { latitude: string; longitude: string };
      set(`${group}.latitude`, place.latitude);
      set(`${group}.longitude`, place.longitude);
    };
    svg.addEventListener("click", (e) => {
      const box = svg.getBoundingClientRect();
      at = { x: ((e.clientX - box.left) / box.width) * width, y: ((e.clientY - box.top) / box.height) * width };
      show();
      void put();
    });
    svg.addEventListener("keydown", (e) => {
      const step = e.shiftKey ? 28 : 4;
      const by = { ArrowLeft: [-step, 0], ArrowRight: [step, 0], ArrowUp: [0, -step], ArrowDown: [0, step] }[e.key];
      if (by) { at = { x: at.x + by[0]!, y: at.y + by[1]! }; show(); e.preventDefault(); }
      else if (e.key === "Enter") { e.preventDefault(); void put(); }
    });
  }
}
