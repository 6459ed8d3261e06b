/** What every stage measured and found, as handed out with a mold. Lengths in mm, angles in degrees. */
package layupmold.api.report;
