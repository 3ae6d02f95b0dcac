package coldward.sheet;

import coldward.model.build.Neck;
import coldward.model.build.Shank;

/**
 * A heat break to choose from.
 *
 * @param name the class, or the text it was given as
 * @param neck its thin part
 * @param shank its part in the sink
 * @param neckSpread spread of the neck's conductance, a share
 */
public record HeatBreak(String name, Neck neck, Shank shank, double neckSpread) {}
