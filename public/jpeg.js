// Writes one picture as JPEG for the worker, which goes on meanwhile: a browser writes where
// it is asked, and holds up what else runs there.
onmessage = async ({ data: [bitmap, quality] }) => {
    let bytes = null;
    try {
        const canvas = new OffscreenCanvas(1, 1);
        canvas.getContext('bitmaprenderer').transferFromImageBitmap(bitmap);
        const blob = await canvas.convertToBlob({ type: 'image/jpeg', quality });
        if (blob.type === 'image/jpeg') bytes = await blob.arrayBuffer();
    } catch {
        // The worker sees that there is nothing.
    }
    postMessage(bytes, bytes ? [bytes] : []);
};
