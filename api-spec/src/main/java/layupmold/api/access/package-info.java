/** Keys that let callers in. */
package layupmold.api.access;
