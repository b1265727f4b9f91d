"""Short ids in the words of a source."""

from grillestack.assess.why_words import sentence, source_ids


def test_ids_are_found_among_words_and_words_without_ids_stay_words():
    assert source_ids("CONTENT, KL1984, IF97") == (("CONTENT", "KL1984", "IF97"), "")
    assert source_ids("INCROPERA in SOURCES.md") == (("INCROPERA",), "")
    assert source_ids("common practice, from memory") == ((), "common practice, from memory")
    assert source_ids("SAE as summarised") == ((), "SAE as summarised")
    assert source_ids("") == ((), "")


def test_a_phrase_becomes_a_sentence_and_nothing_stays_nothing():
    assert sentence("as it is") == "As it is."
    assert sentence("Done.") == "Done."
    assert sentence("") == ""
