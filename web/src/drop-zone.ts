/** Takes records dropped or chosen, one request each, so that a bad one never holds up a good one. */
export function dropZone(): void {
  const form = document.querySelector<HTMLFormElement>("[data-drop]");
  const input = form?.querySelector<HTMLInputElement>("input[type=file]");
  const progress = form?.querySelector<HTMLElement>("[data-progress]");
  const results = document.querySelector<HTMLElement>("[data-uploads]");
  if (!form || !input || !progress || !results) return;
  const limitMb = Number(form.dataset["limitMb"]);
  const token = form.querySelector<HTMLInputElement>("input[name=__RequestVerificationToken]")?.value ?? "";
  form.querySelector<HTMLElement>("[data-send]")?.setAttribute("hidden", "");

  const takeIn = async (files: File[]) => {
    for (const [index, file] of files.entries()) {
      const of = files.length > 1 ? ` (${index + 1} of ${files.length})` : "";
      if (file.size > limitMb * 1e6) {
        refuse(file, `has ${Math.round(file.size / 1e6)} MB; the page takes up to ${limitMb} MB. Use the terminal for it: `, `stillhook debrief ${file.name}`);
        continue;
      }
      await send(file, (part) => { progress.textContent = part < 1 ? `Sending ${file.name}${of}: ${Math.round(part * 100)} %` : `Reading and measuring ${file.name}${of} …`; });
    }
    progress.textContent = "";
    input.value = "";
  };

  const refuse = (file: File, why: string, command = "") => {
    const item = document.createElement("li");
    item.className = "upload-result";
    item.dataset["upload"] = "refused";
    const name = document.createElement("b");
    name.textContent = file.name;
    const code = document.createElement("code");
    code.textContent = command;
    item.append(name, ` ${why}`, command ? code : "");
    results.prepend(item);
  };

  const send = (file: File, told: (part: number) => void) => new Promise<void>((done) => {
    const body = new FormData();
    body.append("records", file);
    body.append("job", form.querySelector<HTMLSelectElement>("select[name=job]")?.value ?? "");
    body.append("fragment", "1");
    const request = new XMLHttpRequest();
    request.open("POST", `/flights?name=${encodeURIComponent(file.name)}`);
    request.setRequestHeader("X-Form-Token", token);
    request.upload.addEventListener("progress", (e) => told(e.lengthComputable ? e.loaded / e.total : 0));
    request.addEventListener("load", () => {
      if (request.status === 200) {
        const fragment = document.createElement("template");
        fragment.innerHTML = request.responseText;
        results.prepend(fragment.content);
      } else {
        const message = new DOMParser().parseFromString(request.responseText, "text/html").querySelector("[data-message]")?.textContent;
        refuse(file, `was not taken in: ${message ?? `the program answered ${request.status}. Reload this page and try again.`}`);
      }
      done();
    });
    request.addEventListener("error", () => { refuse(file, "was not taken in: the program does not answer. Is it still running?"); done(); });
    request.send(body);
  });

  input.addEventListener("change", () => void takeIn([...(input.files ?? [])]));
  form.addEventListener("submit", (e) => e.preventDefault());
  for (const name of ["dragenter", "dragover"]) form.addEventListener(name, (e) => { e.preventDefault(); form.classList.add("over"); });
  for (const name of ["dragleave", "drop"]) form.addEventListener(name, () => form.classList.remove("over"));
  form.addEventListener("drop", (e) => { e.preventDefault(); void takeIn([...(e.dataTransfer?.files ?? [])]); });
}
