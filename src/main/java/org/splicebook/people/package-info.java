/**
 * Who may do what with which house: users, roles, sessions, tokens, invitations and the audit log; pure rules over a {@link
 * org.splicebook.people.PeopleStore} that another package keeps.
 *
 * <p>May import {@code store}, {@code answer}, {@code record} and {@code problem}.
 */
@NullMarked
package org.splicebook.people;

import org.jspecify.annotations.NullMarked;
