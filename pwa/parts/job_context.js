/** What every page of one job shares: the document, the unit, the verdict, and keeping with the truth about it. */
import { valueAt } from "./pointer.js";

/** Gathers it afresh for each repaint; `app` is the wiring's own object. */
export function jobContext(app, id) {
  const handle = app.workbook.job(id) ?? app.guide.job(id);
  if (!handle) return null;
  return {
    app,
    id,
    handle,
    get document() {
      return handle.document;
    },
    get unit() {
      return app.settings.unit;
    },
    get judged() {
      return app.verdicts.of(handle, app.settings.unit);
    },
    value: (path) => valueAt(handle.document, path),
    finding: (check) => app.verdicts.of(handle, app.settings.unit).verdict?.findings.find((one) => one.check === check),
    keep: (label, action) => app.keeper.keep(handle, label, action),
    set: (label, path, value) => app.keeper.keep(handle, label, () => handle.set(path, value)),
    /** A value that is made of the one before it: `next(value)`, whatever the page still shows. */
    change: (label, path, next) => app.keeper.keep(handle, label, () => handle.setBy((document) => [[path, next(valueAt(document, path))]])),
    repaint: app.repaint,
    repaintNow: app.repaintNow,
    repaintPart: app.repaintPart,
    afterPaint: app.afterPaint,
  };
}

/** Put a named item into a list, or change it where it is there already; its rank is its name on every phone. */
export async function putItem(handle, list, id, values) {
  if (!valueAt(handle.document, `${list}/${id}`)) return handle.add(list, { rank: id, ...values }, { id });
  return handle.setMany(Object.entries(values).map(([key, value]) => [`${list}/${id}/${key}`, value]));
}
