/** The mold resource: one posted part on its way to a mold. */
package layupmold.api.mold;
