/**
 * The quick yes of the contract: our own schemas, compiled once into small checks that walk a tree
 * and either accept it or have no opinion.
 *
 * <p>{@link evenside.schemas.acceptor.Acceptor} is the way in. It never refuses: what it does not
 * accept goes to the schema validator, which judges every refusal and words every fault. So this
 * package has one duty, to accept nothing that the validator would refuse, and one aim, to accept
 * all that it would accept. It knows only the keywords the published schemas use; a schema with
 * another one is left to the validator as a whole.
 */
@NullMarked
package evenside.schemas.acceptor;

import org.jspecify.annotations.NullMarked;
