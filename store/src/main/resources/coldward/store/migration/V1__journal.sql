-- What happened, in the order in which it was told. Rows are only ever added: each row's hash covers the hash of the
-- row before, so that a change, a gap or an exchange of rows shows.
CREATE TABLE journal (
    number      INTEGER PRIMARY KEY CHECK (number >= 1),
    wall_millis INTEGER NOT NULL,
    printer     TEXT    NOT NULL,
    kind        TEXT    NOT NULL,
    facts       TEXT    NOT NULL,
    previous    TEXT    NOT NULL CHECK (length(previous) = 64),
    hash        TEXT    NOT NULL CHECK (length(hash) = 64)
) STRICT;

CREATE INDEX journal_by_printer ON journal (printer, kind, number);

CREATE TRIGGER journal_keeps_what_it_has
    BEFORE UPDATE ON journal
BEGIN
    SELECT RAISE(ABORT, 'the journal only grows: an entry is never changed');
END;

CREATE TRIGGER journal_loses_nothing
    BEFORE DELETE ON journal
BEGIN
    SELECT RAISE(ABORT, 'the journal only grows: an entry is never deleted');
END;

-- A row that takes the place of another (INSERT OR REPLACE) deletes it without asking the trigger above.
CREATE TRIGGER journal_grows_at_its_end
    BEFORE INSERT ON journal
    WHEN NEW.number <> (SELECT coalesce(max(number), 0) + 1 FROM journal)
BEGIN
    SELECT RAISE(ABORT, 'the journal only grows at its end: the next number follows the last');
END;
