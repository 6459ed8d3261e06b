/** The layup kit: what the bench needs besides the mold. */
package layupmold.api.kit;
