/** Opening a correction keeps what is ticked; closing it or sending it needs no script. */
export function corrections(): void {
  for (const link of document.querySelectorAll<HTMLAnchorElement>("a[data-correct]"))
    link.addEventListener("click", () => {
      const number = new URL(link.href).searchParams.get("correct") ?? "";
      const query = new URLSearchParams(location.search);
      if (!query.has("show")) return;
      query.set("correct", number);
      link.href = `${location.pathname}?${query.toString()}#correct`;
    });
  const group = document.querySelector<HTMLElement>("[data-correction]");
  const close = group?.querySelector<HTMLAnchorElement>("[data-close-correct]");
  close?.addEventListener("click", (e) => {
    e.preventDefault();
    const query = new URLSearchParams(location.search);
    query.delete("correct");
    const shown = query.toString();
    location.assign(`${location.pathname.replace(/\/lifts\/.*$/, "")}${shown ? `?${shown}` : ""}${close.hash}`);
  });
  group?.querySelector<HTMLElement>("[aria-invalid], input:not([type=hidden])")?.focus();
}
