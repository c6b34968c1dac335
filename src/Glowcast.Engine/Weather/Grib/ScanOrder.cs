namespace Glowcast.Engine.Weather;

/// <summary>In which order the points of a grid follow one another in the data (flag table 3.4).</summary>
/// <param name="Flags">0x80 rows run westward, 0x40 columns run northward, 0x20 points of a column follow one another,
/// 0x10 every second run is reversed.</param>
internal readonly record struct ScanOrder(byte Flags, int Ni, int Nj)
{
    public bool RunsWestward => (Flags & 0x80) != 0;

    public bool RunsNorthward => (Flags & 0x40) != 0;

    private bool DownColumns => (Flags & 0x20) != 0;

    private bool Alternates => (Flags & 0x10) != 0;

    /// <summary>The place in the data of a point counted along the scan directions from the first.</summary>
    public int IndexOf(int i, int j)
    {
        var (along, across, run) = DownColumns ? (j, i, Nj) : (i, j, Ni);
        return (across * run) + (Alternates && (across & 1) == 1 ? run - 1 - along : along);
    }
}
