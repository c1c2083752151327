"""The tables of the chain: its entries, and its head."""

from __future__ import annotations

from django.db import models


class Entry(models.Model):
    """One thing that was done. The text is what counts; moment, kind and subject are copies of it to search by."""

    seq = models.BigIntegerField(primary_key=True)
    at = models.DateTimeField(db_index=True)
    kind = models.CharField(max_length=60)
    subject = models.CharField(max_length=80, db_index=True)
    text = models.TextField()
    hash = models.CharField(max_length=64)

    class Meta:
        """Newest first, as people look."""

        db_table = "audit_entry"
        ordering = ("-seq",)

    def __str__(self) -> str:
        return f"{self.seq}. {self.sentence}"

    @property
    def sentence(self) -> str:
        """The first line of the text: what a person reads."""
        return self.text.partition("\n")[0]

    @property
    def facts(self) -> str:
        """The second line: the same as JSON."""
        return self.text.partition("\n")[2]

    @property
    def short_hash(self) -> str:
        """The beginning of the hash in groups, as it is printed."""
        return short(self.hash)


class Head(models.Model):
    """Where the chain ends: the one row that an append locks."""

    id = models.SmallIntegerField(primary_key=True, default=1)
    seq = models.BigIntegerField()
    hash = models.CharField(max_length=64)

    class Meta:
        """One row."""

        db_table = "audit_head"
        constraints = (models.CheckConstraint(condition=models.Q(id=1), name="audit_head_is_one_row"),)

    def __str__(self) -> str:
        return f"{self.seq} {self.hash}"


def short(hash: str) -> str:
    """Return the first twelve digits of a hash in groups of four."""
    return " ".join(hash[start : start + 4] for start in (0, 4, 8))
