/** Stage "plug": islands on the tool surface that mould openings net. */
package layupmold.geometry.plug;
