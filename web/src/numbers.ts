/** A number written with the point, with the mark that the person reads; never marks between the thousands. */
export function marked(text: string): string {
  return document.documentElement.dataset["mark"] === "comma" ? text.replace(".", ",") : text;
}
