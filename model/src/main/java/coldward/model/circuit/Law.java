package coldward.model.circuit;

/** Current and slope of a two-terminal part over its voltage, and how far a solver may trust its tangent. */
sealed interface Law {

    double current(double v);

    double slope(double v);

    /** The voltage to linearise at next, when Newton asks for {@code next} after {@code last}. */
    double limited(double next, double last);

    /** A junction. */
    record OfJunction(DiodeModel.Junction junction) implements Law {
        @Override
        public double current(double v) {
            return junction.current(v);
        }

        @Override
        public double slope(double v) {
            return junction.slope(v);
        }

        @Override
        public double limited(double next, double last) {
            return junction.limited(next, last);
        }
    }

    /** A transistor stage. */
    record OfStage(Element.StageModel model) implements Law {
        @Override
        public double current(double v) {
            return model.current(v);
        }

        @Override
        public double slope(double v) {
            return model.slope(v);
        }

        /** Coming from where the tangent is flat, on either side, Newton has to land on the steep part first. */
        @Override
        public double limited(double next, double last) {
            double knee = model.limit() * model.ohm();
            double steep = model.offset() + (model.offset() == 0 ? 0 : Element.StageModel.ROUNDING);
            boolean fromAbove = last > steep + knee && next < steep + knee;
            double foot = model.offset() == 0 ? -knee : model.offset();
            boolean fromBelow = last < foot && next > foot;
            return fromAbove || fromBelow ? steep : next;
        }
    }
}
