package coldward.sheet;

import coldward.model.build.Fan;

/**
 * A fan to choose from.
 *
 * @param name as in the list of fans, or its class and speed
 * @param fan its facts
 */
public record NamedFan(String name, Fan fan) {}
