"""German on the phone: both catalogues hold the same texts, and the settings choose between them."""

from collections.abc import Callable

from playwright.sync_api import Page, expect

from tests.browser.conftest import Server

# Every place of a catalogue with what stands there: a text, a list, how much a sentence takes; of a pair
# [word of the contract, text] the word itself.
SHAPES = """async () => {
  const listed = (list, path, out) => {
    out[path] = `${list.length} in a list`;
    list.forEach((one, at) => shape(one, `${path}/${at}`, out));
    if (list.length > 1 && /^[a-z_0-9.]+$/.test(list[0]) && list[0].includes("_")) out[`${path}/0`] = list[0];
  };
  const shape = (part, path, out) => {
    if (typeof part === "function") out[path] = `takes ${part.length}`;
    else if (typeof part === "string") out[path] = part.trim() ? "text" : "empty";
    else if (Array.isArray(part)) listed(part, path, out);
    else for (const [key, one] of Object.entries(part)) shape(one, `${path}/${key}`, out);
    return out;
  };
  const read = async (file) => shape((await import(`/words/${file}.js`)).words, "", {});
  return Promise.all(["en", "de", "en_copy", "de_copy"].map(read));
}"""


def test_both_catalogues_have_the_same_texts(
    standing_server: Server, new_page: Callable[[Server], Page]
) -> None:
    english, german, english_copy, german_copy = new_page(standing_server).evaluate(SHAPES)
    assert german == english
    assert german_copy == english_copy
    assert "empty" not in {*english.values(), *english_copy.values()}


def test_the_settings_change_the_language(standing_server: Server, new_page: Callable[..., Page]) -> None:
    page = new_page(standing_server, "/#/settings")
    page.get_by_role("group", name="Language").get_by_role("button", name="Deutsch").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Einstellungen")
    expect(page.locator("html")).to_have_attribute("lang", "de")
    page.reload()
    expect(page.get_by_role("heading", level=1)).to_have_text("Einstellungen")
