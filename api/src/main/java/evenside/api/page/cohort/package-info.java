/** The cohort sheet: {@link evenside.api.page.cohort.CohortSheet} from computed counts. */
@org.jspecify.annotations.NullMarked
package evenside.api.page.cohort;
