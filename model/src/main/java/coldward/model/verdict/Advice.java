package coldward.model.verdict;

import coldward.model.heat.Deadline;
import coldward.model.trip.Margin;

/**
 * One single change and what it would bring.
 *
 * @param change in words
 * @param deadline of the response after the change, worse regime
 * @param stopTime after the change, s
 * @param margin after the change
 */
public record Advice(String change, Deadline deadline, double stopTime, Margin margin) {}
