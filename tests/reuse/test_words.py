"""The words of the trade."""

from __future__ import annotations

from typing import get_args

import pytest

from torquebook.catalogue.book import Book
from torquebook.errors import NotUnderstood
from torquebook.records.reuse import Feature, History
from torquebook.reuse import words
from torquebook.reuse.reading import read_fastener

BOOK = Book.open()


def test_every_feature_and_history_has_words() -> None:
    """Whatever a record may say can be said on the command line."""
    assert set(words.FEATURES.values()) == set(get_args(Feature))
    assert set(words.HISTORIES.values()) == set(get_args(History))


def test_no_word_means_two_things() -> None:
    """A word is a feature, a history, doubtful, or idle: never two of them."""
    kinds = (set(words.FEATURES), set(words.HISTORIES), set(words.DOUBTFUL), set(words.IDLE))
    assert sum(map(len, kinds)) == len(set().union(*kinds))


@pytest.mark.parametrize("word", sorted({*words.FEATURES, *words.HISTORIES}))
def test_word_is_read_as_itself(word: str) -> None:
    """No shorter word in front takes a longer one apart."""
    said = read_fastener(f"M10 10.9 {word}", BOOK)
    meant = words.FEATURES.get(word) or words.HISTORIES.get(word)
    assert {*said.features, *said.history} == {meant}


@pytest.mark.parametrize("word", sorted(words.DOUBTFUL))
def test_readings_of_doubtful_words_are_words(word: str) -> None:
    """What a doubtful word may mean can be typed as it is offered."""
    with pytest.raises(NotUnderstood):
        read_fastener(f"M10 {word}", BOOK)
    for reading in words.DOUBTFUL[word]:
        assert read_fastener(f"M10 {reading}", BOOK).features
