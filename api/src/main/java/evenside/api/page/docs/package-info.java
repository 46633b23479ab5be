/** What the pages of the documentation show: the instance, and the published contract. */
@org.jspecify.annotations.NullMarked
package evenside.api.page.docs;
