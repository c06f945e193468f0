// What scripts of other pages than the one at the bench say of themselves, and share by the window.

/** Cells of a row, and the id that the row gets. */
interface Row extends Array<any> { id?: string }
interface Window {
  benchleafSheet(name: string, sheet: unknown): void;
  benchleafFind(build: string, pages: unknown): void;
}
