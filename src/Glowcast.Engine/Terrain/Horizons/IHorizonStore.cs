namespace Glowcast.Engine.Terrain;

/// <summary>Keeps tables of horizons as bytes for longer than a program runs; it may forget any of them. Safe for many threads.</summary>
public interface IHorizonStore
{
    /// <param name="key">As <see cref="HorizonShelf.KeyOf"/> gives it.</param>
    /// <returns>Null where nothing is kept under this key.</returns>
    byte[]? Find(string key);

    void Keep(string key, byte[] table);
}
