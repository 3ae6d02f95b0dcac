package coldward.model.shop;

import coldward.quantity.InputError;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZonedDateTime;

/**
 * A part of every day in which people are left alone unless there is danger; it may span midnight.
 *
 * @param from its first moment, included
 * @param until its end, not included
 * @param zone whose clock is meant
 */
public record QuietHours(LocalTime from, LocalTime until, ZoneId zone) {
    public QuietHours {
        if (from.equals(until)) {
            throw new InputError(
                    "quiet_hours until", "until is " + until + " but must differ from the beginning, " + from);
        }
    }

    /** Whether a moment is quiet: {@code from <= local time < until}, or outside that where it spans midnight. */
    public boolean at(Instant moment) {
        LocalTime local = moment.atZone(zone).toLocalTime();
        boolean begun = !local.isBefore(from);
        boolean over = !local.isBefore(until);
        return from.isBefore(until) ? begun && !over : begun || !over;
    }

    /** The next end after a moment; an end that a changed clock leaves out comes as much later as the clock skips. */
    public Instant endAfter(Instant moment) {
        ZonedDateTime now = moment.atZone(zone);
        ZonedDateTime end = now.toLocalDate().atTime(until).atZone(zone);
        return (end.isAfter(now)
                        ? end
                        : now.toLocalDate().plusDays(1).atTime(until).atZone(zone))
                .toInstant();
    }
}
