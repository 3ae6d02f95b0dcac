/**
 * What do a healthy fan's reports look like, and is the recording good enough to say so? Robust estimates of mean, scatter,
 * correlation, outliers and drift; speeds in rpm, times in s, slopes in rpm/h. Sources: Sen 1968 for the slope, Rousseeuw
 * and Croux 1993 for the scatter, Clopper and Pearson 1934 for the outlier rate.
 */
@NullMarked
package coldward.model.baseline;

import org.jspecify.annotations.NullMarked;
