package coldward.watch.guard;

import java.util.List;

/**
 * The result of one step.
 *
 * @param state the state after the event
 * @param effects what the step asks for, in order; often none
 */
public record Step(GuardState state, List<Effect> effects) {}
