using System.Globalization;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>Esri ASCII grid: a header of named numbers, then heights from north to south, separated by white space.</summary>
/// <remarks>Taken as geographic WGS84 degrees: the format names no projection. Source: Esri, "ASCII raster format".</remarks>
internal sealed class EsriAsciiFormat : IGridFormat
{
    private const double UsualNoData = -9999;

    public string Name => "Esri ASCII .asc";

    public bool Recognises(string fileName) => fileName.EndsWith(".asc", StringComparison.OrdinalIgnoreCase);

    public GridSource Open(Stream stream, string fileName)
    {
        var words = new Words(new StreamReader(stream, leaveOpen: true), fileName);
        return new Source(words, Header.Read(words, fileName, stream.Length), fileName);
    }

    private sealed class Source(Words words, Header header, string fileName) : GridSource(fileName, header.Posts, verticalDatum: null)
    {
        // All words are read, whatever the window: whether the file is sound shows only at its end.
        private protected override void ReadPieces(GridWindow window, TakeHeights take)
        {
            var heights = new float[Posts.Columns];
            for (var row = 0; row < Posts.Rows; row++)
            {
                for (var column = 0; column < heights.Length; column++)
                {
                    var height = words.Number("a height");
                    heights[column] = height == header.NoData ? float.NaN : (float)height;
                }
                take(row, 0, heights);
            }
            words.MustEnd();
        }
    }

    private sealed record Header(GridPosts Posts, double NoData)
    {
        public static Header Read(Words words, string fileName, long fileLength)
        {
            var values = new Dictionary<string, double>(StringComparer.OrdinalIgnoreCase);
            while (words.Peek() is { } word && char.IsAsciiLetter(word[0]) && !IsNaN(word))
            {
                words.Next();
                if (!values.TryAdd(word, words.Number(word))) throw new BadInputException(fileName, $"The header gives {word} twice.");
            }
            return From(values, fileName, fileLength);
        }

        private static Header From(Dictionary<string, double> values, string fileName, long fileLength)
        {
            var faults = new Faults();
            double Value(params string[] names)
            {
                foreach (var name in names)
                    if (values.Remove(name, out var value)) return value;
                faults.Add(fileName, $"The header lacks {string.Join(" or ", names)}.");
                return double.NaN;
            }

            var columns = Value("ncols");
            var rows = Value("nrows");
            var centred = (X: values.ContainsKey("xllcenter"), Y: values.ContainsKey("yllcenter"));
            var west = Value("xllcenter", "xllcorner");
            var south = Value("yllcenter", "yllcorner");
            var (stepX, stepY) = values.ContainsKey("dx") ? (Value("dx"), Value("dy")) : (Value("cellsize"), double.NaN);
            if (double.IsNaN(stepY)) stepY = stepX;
            if (!values.Remove("nodata_value", out var noData)) noData = UsualNoData;
            foreach (var unknown in values.Keys) faults.Add(fileName, $"The header has an unknown word '{unknown}'.");
            if (faults.Any || !double.IsInteger(columns) || !double.IsInteger(rows) || columns < 2 || rows < 2)
            {
                if (!faults.Any) faults.Add(fileName, $"ncols and nrows must be whole numbers of at least 2; got {columns} and {rows}.");
                faults.ThrowIfAny();
            }
            // A height takes two characters at least, so a short file cannot hold a large grid.
            if (columns > int.MaxValue || rows > int.MaxValue || columns * rows * 2 > fileLength + 1)
                throw new BadInputException(fileName, $"Claims {columns} × {rows} heights, which do not fit into its {fileLength} bytes: it is cut off, or its header is wrong.");

            if (!centred.X) west += stepX / 2;
            if (!centred.Y) south += stepY / 2;
            if (west is < -360 or > 360 || south is < -90 or > 90)
                throw new BadInputException(fileName, $"Its corner {west}, {south} is not in degrees: only grids in geographic coordinates can be read from this format, which names no projection.");
            return new Header(new GridPosts((int)rows, (int)columns, south + ((rows - 1) * stepY), west, stepY, stepX), noData);
        }
    }

    private static bool IsNaN(string word) => word.Equals("nan", StringComparison.OrdinalIgnoreCase);

    /// <summary>Words between white space; line breaks mean nothing in this format.</summary>
    private sealed class Words(TextReader reader, string fileName)
    {
        private const int LongestWord = 64;
        private readonly char[] buffer = new char[LongestWord];
        private string? peeked;
        private long count;

        public string? Peek() => peeked ??= Read();

        public string? Next()
        {
            var word = Peek();
            peeked = null;
            count++;
            return word;
        }

        public double Number(string what)
        {
            var word = Next() ?? throw new BadInputException(fileName, $"Ends before {what}: it is cut off.");
            if (double.TryParse(word, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number)) return number;
            throw new BadInputException(fileName, $"Has '{word}' for {what}, its word {count}; a number such as 1234.5 is right (no decimal comma, no NaN: holes carry the NODATA_value).");
        }

        public void MustEnd()
        {
            if (Next() is { } word) throw new BadInputException(fileName, $"Goes on with '{word}' after its last height: it holds more heights than ncols × nrows.");
        }

        private string? Read()
        {
            int next;
            while ((next = reader.Read()) >= 0 && char.IsWhiteSpace((char)next))
            {
            }
            if (next < 0) return null;
            var length = 0;
            for (; next >= 0 && !char.IsWhiteSpace((char)next); next = reader.Read())
            {
                if (length == LongestWord) throw new BadInputException(fileName, $"Is not an ASCII grid: it has a word longer than {LongestWord} characters ('{new string(buffer, 0, 20)}…').");
                buffer[length++] = (char)next;
            }
            return new string(buffer, 0, length);
        }
    }
}
