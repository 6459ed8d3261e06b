/** The recipe: everything about a mold besides the part's mesh. Every field is optional; the defaults are in the contract. */
package layupmold.api.recipe;
