"""German on the phone: both catalogues hold the same texts, and the choice in the settings changes every one."""

from collections.abc import Callable

from playwright.sync_api import Page, expect

from tests.browser.conftest import Server

# Every place of both catalogues with what stands there: a text, a list's length, how many things a sentence takes.
SHAPES = """async () => {
  const shape = (part, path, out) => {
    if (typeof part === "function") out[path] = `takes ${part.length}`;
    else if (typeof part === "string") out[path] = part.trim() ? "text" : "empty";
    else if (Array.isArray(part)) {
      out[path] = `${part.length} in a list`;
      part.forEach((one, at) => Array.isArray(one) ? (out[`${path}/${at}`] = one[0]) && shape(one.slice(1), `${path}/${at}`, out) : shape(one, `${path}/${at}`, out));
    } else for (const [key, one] of Object.entries(part)) shape(one, `${path}/${key}`, out);
    return out;
  };
  const read = async (file) => shape((await import(`/words/${file}.js`)).words, "", {});
  return Promise.all(["en", "de", "en_copy", "de_copy"].map(read));
}"""
IN_STEPS = "/tests/look/steps/"


def test_both_catalogues_have_the_same_texts(
    standing_server: Server, new_page: Callable[[Server], Page]
) -> None:
    english, german, english_copy, german_copy = new_page(standing_server).evaluate(SHAPES)
    assert german == english
    assert german_copy == english_copy
    assert "empty" not in {*english.values(), *english_copy.values()}


def test_the_settings_change_the_language(
    standing_server: Server, new_page: Callable[..., Page]
) -> None:
    page = new_page(standing_server, "/#/settings")
    page.get_by_role("group", name="Language").get_by_role("button", name="Deutsch").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Einstellungen")
    expect(page.locator("html")).to_have_attribute("lang", "de")
    page.reload()
    expect(page.get_by_role("heading", level=1)).to_have_text("Einstellungen")
