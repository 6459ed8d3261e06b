/** Standing several molds on one printer's bed. */
package layupmold.geometry.plate;
