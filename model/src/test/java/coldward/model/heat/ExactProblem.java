package coldward.model.heat;

/** A problem whose answer is known in closed form, and the model's answer to it on finer and finer grids. */
interface ExactProblem {

    /** What is compared, in a word or two. */
    String name();

    /** The closed form. */
    double exact();

    /** The model's number with cells of a fraction of the usual size. */
    double computed(double refinement);

    /** The order at which the second should approach the first. */
    default double order() {
        return 2;
    }
}
