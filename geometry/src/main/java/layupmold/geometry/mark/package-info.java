/** The mark of a trim line, in section. */
package layupmold.geometry.mark;
